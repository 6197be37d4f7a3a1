import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Where the project stands, whatever folder the command was given in. */
export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** Every file that one part of the build is made of. Time and size of each decide whether the part is stale. */
function fingerprint(paths) {
  const hash = createHash('sha256');
  const visit = (path) => {
    const full = join(root, path);
    if (!existsSync(full)) return;
    const stat = statSync(full);
    if (stat.isDirectory()) for (const name of readdirSync(full).sort()) visit(join(path, name));
    else hash.update(`${path}\0${stat.size}\0${stat.mtimeMs}\n`);
  };
  for (const path of paths) visit(path);
  return hash.digest('hex');
}

const stampFile = (part) => join(root, 'dist', `.${part}.stamp`);

/** True when the part was built from the sources as they stand now. */
export function isFresh(part, sources, results) {
  if (!results.every((file) => existsSync(join(root, file)))) return false;
  const stamp = stampFile(part);
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === fingerprint(sources);
}

/** Notes the sources a part is about to be built from; call the result once the build has succeeded. */
export function stampOf(part, sources) {
  const found = fingerprint(sources);
  return () => {
    mkdirSync(join(root, 'dist'), { recursive: true });
    writeFileSync(stampFile(part), found);
  };
}
