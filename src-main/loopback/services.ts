import { platform } from 'node:os';
import { keptData } from '../files/kept-data.ts';
import { programVersion } from '../files/program-folder.ts';
import type { RimwardHost } from '../ipc/contract.ts';
import { ownScenarios } from '../store/own-scenarios.ts';
import { Store } from '../store/store.ts';
import { storeServices } from '../store/store-services.ts';

/**
 * What the loopback shell does for the page. Opening and saving files is left out: the browser has dialogs of its own,
 * and the page's script uses those.
 */
export function loopbackServices(folder: string): Partial<RimwardHost> {
  const store = new Store(folder);
  return {
    ...keptData(folder),
    ...ownScenarios(folder),
    ...storeServices(store),
    hostInfo: async () => ({
      version: programVersion(),
      platform: platform(),
      dataFolder: folder,
      notices: store.notices(),
    }),
  };
}
