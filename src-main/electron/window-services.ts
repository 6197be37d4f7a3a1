import { readFile, stat } from 'node:fs/promises';
import { platform } from 'node:os';
import { basename } from 'node:path';
import { type BrowserWindow, dialog } from 'electron';
import { writeTextAtomically } from '../files/atomic-write.ts';
import { keptData } from '../files/kept-data.ts';
import { programVersion } from '../files/program-folder.ts';
import { Refusal } from '../ipc/answer.ts';
import { FILE_ENDING, type OpenedFile, type RimwardHost } from '../ipc/contract.ts';
import { ownScenarios } from '../store/own-scenarios.ts';
import { Store } from '../store/store.ts';
import { storeServices } from '../store/store-services.ts';

const LARGEST_FILE_BYTES = 20_000_000;

/** Reads a file the person chose; refuses what is too large or no text. */
async function readChosen(path: string): Promise<OpenedFile> {
  const name = basename(path);
  const found = await stat(path).catch(() => null);
  if (found === null || !found.isFile()) throw new Refusal(`${name} cannot be read`);
  if (found.size > LARGEST_FILE_BYTES) throw new Refusal(`${name} is larger than 20 MB`);
  const bytes = await readFile(path).catch(() => null);
  if (bytes === null) throw new Refusal(`${name} cannot be read`);
  try {
    return { name, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    throw new Refusal(`${name} is not a text file`);
  }
}

/** What the window's shell does for the page. `window` gives the window that dialogs belong to. */
export function windowServices(folder: string, window: () => BrowserWindow): Partial<RimwardHost> {
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
    openTextFile: async () => {
      const { canceled, filePaths } = await dialog.showOpenDialog(window(), {
        title: 'Open a file',
        properties: ['openFile'],
        filters: [{ name: 'Eyes, hands, attempts and outlines', extensions: [FILE_ENDING, 'json', 'csv'] }],
      });
      return canceled || filePaths.length === 0 ? null : readChosen(filePaths[0]);
    },
    saveTextFile: async (suggestedName, text) => {
      const { canceled, filePath } = await dialog.showSaveDialog(window(), {
        title: 'Save as',
        defaultPath: suggestedName,
      });
      if (canceled || filePath === '') return null;
      await writeTextAtomically(filePath, text).catch((fault: NodeJS.ErrnoException) => {
        throw new Refusal(`${basename(filePath)} could not be written (${fault.code ?? 'unknown'})`);
      });
      return basename(filePath);
    },
  };
}
