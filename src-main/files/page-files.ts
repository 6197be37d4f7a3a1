import { readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webp': 'image/webp',
  '.jpg': 'image/jpeg',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.md': 'text/markdown; charset=utf-8',
};

export interface PageFile {
  readonly path: string;
  readonly type: string;
}

/**
 * Every file of the built page by its address (`/index.html`), with `/` for the page itself. Both shells serve what is
 * in this list and nothing else, so no address, however written, can lead out of the folder. Links are not followed.
 */
export function listPageFiles(folder: string): ReadonlyMap<string, PageFile> {
  const files = new Map<string, PageFile>();
  const visit = (address: string, path: string): void => {
    for (const entry of readdirSync(path, { withFileTypes: true })) {
      const inside = join(path, entry.name);
      if (entry.isDirectory()) visit(`${address}${entry.name}/`, inside);
      const type = TYPES[extname(entry.name).toLowerCase()];
      if (entry.isFile() && type !== undefined) files.set(`${address}${entry.name}`, { path: inside, type });
    }
  };
  visit('/', folder);
  const index = files.get('/index.html');
  if (index === undefined) throw new Error(`no index.html in ${folder}: the page has not been built`);
  files.set('/', index);
  return files;
}

/** What is in a file of the list; null when it has gone since, as when the page is built anew under a running program. */
export const readPageFile = ({ path }: PageFile): Promise<Buffer | null> =>
  readFile(path).catch((fault: NodeJS.ErrnoException) => {
    if (fault.code === 'ENOENT') return null;
    throw fault;
  });
