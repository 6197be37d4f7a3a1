import { platform } from 'node:os';
import { keptData } from '../files/kept-data.ts';
import { programVersion } from '../files/program-folder.ts';
import { Refusal } from '../ipc/answer.ts';
import type { RimwardHost } from '../ipc/contract.ts';
import { fileJobs } from '../store/file-jobs.ts';
import { outsideOpenings } from '../store/outside-openings.ts';
import { ownScenarios } from '../store/own-scenarios.ts';
import { ReportPages } from '../store/report-pages.ts';
import { Store } from '../store/store.ts';
import { storeServices } from '../store/store-services.ts';
import { Exchange } from './exchange.ts';

/** What the shell can do for the page by calls, and the files that go beside them. */
export type LoopbackServices = Partial<RimwardHost> & { readonly exchange?: Exchange };

const BY_THE_BROWSER = 'A browser makes the PDF itself: open the report, print it, and choose to save as PDF.';

/**
 * What the loopback shell does for the page. Opening and saving files is left out: the browser has dialogs of its own,
 * and the page's script uses those. What `importBundle` and `restoreStore` take comes over `exchange`.
 */
export function loopbackServices(folder: string): LoopbackServices {
  const store = new Store(folder);
  const version = programVersion();
  const kept = keptData(folder);
  const jobs = fileJobs(store, kept, version);
  const exchange = new Exchange(jobs, new ReportPages(store, kept.loadPreferences));
  const noPdf = async (): Promise<never> => {
    throw new Refusal(BY_THE_BROWSER);
  };
  return {
    ...kept,
    ...ownScenarios(folder),
    ...outsideOpenings(folder),
    ...storeServices(store),
    hostInfo: async () => ({ version, platform: platform(), dataFolder: folder, notices: store.notices() }),
    // A browser is handed no files by the system.
    takeHandedFile: async () => null,
    exportBundle: (name, ids) => exchange.exportBundle(name, ids),
    backupStore: (name) => exchange.backupStore(name),
    jobProgress: async (id) => jobs.progress(id),
    cancelJob: async (id) => jobs.cancel(id),
    // These only look that there is something to show; the page's script opens it.
    openAttemptReport: async (id) => exchange.reports.refuseUnknown(id),
    openPersonReport: async (personId, scenarioId) => exchange.reports.refuseUnknownPerson(personId, scenarioId),
    saveAttemptReport: noPdf,
    savePersonReport: noPdf,
    exchange,
  };
}
