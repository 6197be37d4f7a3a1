import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds `dist`, found from where this bundle lies; also right inside a packed application. */
export function programFolder(from: string = import.meta.url): string {
  let folder = dirname(fileURLToPath(from));
  while (!existsSync(join(folder, 'package.json'))) {
    if (dirname(folder) === folder) throw new Error(`no package.json above ${fileURLToPath(from)}`);
    folder = dirname(folder);
  }
  return folder;
}

export function programVersion(): string {
  return (JSON.parse(readFileSync(join(programFolder(), 'package.json'), 'utf8')) as { version: string }).version;
}
