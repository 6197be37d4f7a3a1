import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { type BrowserWindow, dialog } from 'electron';
import { Refusal } from '../ipc/answer.ts';
import { FILE_ENDING, type OpenedFile } from '../ipc/contract.ts';
import { t } from '../words/words.ts';

const LARGEST_FILE_BYTES = 20_000_000;

/** Reads a file the person chose; refuses what is too large or no text. */
export async function readChosen(path: string): Promise<OpenedFile> {
  const name = basename(path);
  const found = await stat(path).catch(() => null);
  if (found === null || !found.isFile()) throw new Refusal(t('window.files.unreadable', { name }));
  if (found.size > LARGEST_FILE_BYTES) throw new Refusal(t('window.files.tooLarge', { name }));
  const bytes = await readFile(path).catch(() => null);
  if (bytes === null) throw new Refusal(t('window.files.unreadable', { name }));
  try {
    return { name, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    throw new Refusal(t('window.files.notText', { name }));
  }
}

/** Asks for a file to read. Null when the person chose none. */
async function chooseFile(window: BrowserWindow, name: string, extensions: readonly string[]): Promise<string | null> {
  const { canceled, filePaths } = await dialog.showOpenDialog(window, {
    title: t('window.files.open'),
    properties: ['openFile'],
    filters: [{ name, extensions: [...extensions] }],
  });
  return canceled || filePaths.length === 0 ? null : filePaths[0];
}

export const chooseText = (window: BrowserWindow): Promise<string | null> =>
  chooseFile(window, t('window.files.texts'), [FILE_ENDING, 'json', 'csv']);

/** A file to read in one go with its short name. Null when the person chose none; refused when it is not there. */
export async function chooseNamed(
  window: BrowserWindow,
  name: string,
  ending: string,
): Promise<{ readonly path: string; readonly name: string } | null> {
  const path = await chooseFile(window, name, [ending]);
  if (path === null) return null;
  const found = await stat(path).catch(() => null);
  if (found === null || !found.isFile()) throw new Refusal(t('window.files.unreadable', { name: basename(path) }));
  return { path, name: basename(path) };
}

/** Asks where to put a file. Null when the person changed their mind. */
export async function choosePlace(
  window: BrowserWindow,
  suggestedName: string,
): Promise<{ readonly path: string; readonly name: string } | null> {
  const { canceled, filePath } = await dialog.showSaveDialog(window, {
    title: t('window.files.save'),
    defaultPath: suggestedName,
  });
  return canceled || filePath === '' ? null : { path: filePath, name: basename(filePath) };
}
