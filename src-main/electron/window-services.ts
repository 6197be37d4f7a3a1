import { platform } from 'node:os';
import { basename } from 'node:path';
import type { BrowserWindow } from 'electron';
import { writeBytesAtomically } from '../files/atomic-write.ts';
import { keptData } from '../files/kept-data.ts';
import { programVersion } from '../files/program-folder.ts';
import { Refusal } from '../ipc/answer.ts';
import type { RimwardHost } from '../ipc/contract.ts';
import { BACKUP_ENDING } from '../store/backup.ts';
import { BUNDLE_ENDING } from '../store/bundle-format.ts';
import { type FileJobs, fileJobs, withEnding } from '../store/file-jobs.ts';
import { outsideOpenings } from '../store/outside-openings.ts';
import { ownScenarios } from '../store/own-scenarios.ts';
import { attemptReportAddress, personReportAddress, ReportPages } from '../store/report-pages.ts';
import { Store } from '../store/store.ts';
import { storeServices } from '../store/store-services.ts';
import { t } from '../words/words.ts';
import { chooseNamed, choosePlace, chooseText, readChosen } from './file-dialogs.ts';
import { type FollowedLanguage, followLanguage } from './follow-language.ts';
import { HandedFiles } from './handed-files.ts';
import { reportPdf, showReport } from './report-window.ts';

function notWritten(path: string): (fault: NodeJS.ErrnoException) => never {
  return (fault) => {
    throw new Refusal(t('window.files.notWritten', { name: basename(path), code: fault.code ?? '?' }));
  };
}

/** Writes where the person chooses. Null when they changed their mind. */
async function saveChosen(window: BrowserWindow, suggestedName: string, bytes: Uint8Array): Promise<string | null> {
  const file = await choosePlace(window, suggestedName);
  if (file === null) return null;
  await writeBytesAtomically(file.path, bytes).catch(notWritten(file.path));
  return file.name;
}

type FileCalls = 'exportBundle' | 'importBundle' | 'backupStore' | 'restoreStore' | 'jobProgress' | 'cancelJob';

/** Long work on files that the person chooses in the system's dialogs. */
function fileServices(jobs: FileJobs, window: () => BrowserWindow): Pick<RimwardHost, FileCalls> {
  const place = (name: string, ending: string) => {
    jobs.refuseWhileBusy();
    return choosePlace(window(), withEnding(name, ending));
  };
  const chosen = (name: string, ending: string) => {
    jobs.refuseWhileBusy();
    return chooseNamed(window(), name, ending);
  };
  return {
    exportBundle: async (name, ids) => {
      const file = await place(name, BUNDLE_ENDING);
      return file === null ? null : jobs.exportTo(file, ids);
    },
    importBundle: async () => {
      const file = await chosen(t('window.files.bundles'), BUNDLE_ENDING);
      return file === null ? null : jobs.importFrom(file);
    },
    backupStore: async (name) => {
      const file = await place(name, BACKUP_ENDING);
      return file === null ? null : jobs.backupTo(file);
    },
    restoreStore: async () => {
      const file = await chosen(t('window.files.backups'), BACKUP_ENDING);
      return file === null ? null : jobs.restoreFrom(file);
    },
    jobProgress: async (id) => jobs.progress(id),
    cancelJob: async (id) => jobs.cancel(id),
  };
}

type ReportCalls = 'openAttemptReport' | 'openPersonReport' | 'saveAttemptReport' | 'savePersonReport';

function reportServices(reports: ReportPages, window: () => BrowserWindow): Pick<RimwardHost, ReportCalls> {
  const save = async (address: string, ready: () => Promise<void>): Promise<string | null> => {
    const file = await choosePlace(window(), 'report.pdf');
    if (file === null) return null;
    await ready();
    const pdf = await reportPdf(address);
    await writeBytesAtomically(file.path, pdf).catch(notWritten(file.path));
    return file.name;
  };
  return {
    openAttemptReport: async (id) => {
      reports.refuseUnknown(id);
      await showReport(attemptReportAddress(id), reports.ready(id));
    },
    saveAttemptReport: async (id) => {
      reports.refuseUnknown(id);
      return save(attemptReportAddress(id), () => reports.ready(id));
    },
    openPersonReport: async (personId, scenarioId) => {
      reports.refuseUnknownPerson(personId, scenarioId);
      await showReport(personReportAddress(personId, scenarioId), null);
    },
    savePersonReport: async (personId, scenarioId) => {
      reports.refuseUnknownPerson(personId, scenarioId);
      return save(personReportAddress(personId, scenarioId), async () => undefined);
    },
  };
}

export interface WindowShell {
  readonly services: Partial<RimwardHost>;
  /** For the page's protocol, which shows them. */
  readonly reports: ReportPages;
  readonly handed: HandedFiles;
  readonly language: FollowedLanguage;
  /** Leaves what is kept whole and closed; what is asked for afterwards opens it again. */
  close(): void;
}

/**
 * What the window's shell does for the page.
 *
 * @param window gives the window that dialogs belong to
 * @param reworded called when the person chose another language
 */
export function windowShell(folder: string, window: () => BrowserWindow, reworded: () => void): WindowShell {
  const store = new Store(folder);
  const version = programVersion();
  const kept = keptData(folder);
  const reports = new ReportPages(store, kept.loadPreferences);
  const jobs = fileJobs(store, kept, version);
  const handed = new HandedFiles(jobs, window);
  const language = followLanguage(kept, reworded);
  const services: Partial<RimwardHost> = {
    ...kept,
    savePreference: language.savePreference,
    ...ownScenarios(folder),
    ...outsideOpenings(folder),
    ...storeServices(store),
    ...fileServices(jobs, window),
    ...reportServices(reports, window),
    hostInfo: async () => ({ version, platform: platform(), dataFolder: folder, notices: store.notices() }),
    takeHandedFile: () => handed.take(),
    openTextFile: async () => {
      const path = await chooseText(window());
      return path === null ? null : readChosen(path);
    },
    saveTextFile: (suggestedName, text) => saveChosen(window(), suggestedName, new TextEncoder().encode(text)),
    saveBinaryFile: (suggestedName, bytes) => saveChosen(window(), suggestedName, bytes),
  };
  return { services, reports, handed, language, close: () => store.close() };
}
