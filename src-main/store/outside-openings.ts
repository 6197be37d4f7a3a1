import { randomUUID } from 'node:crypto';
import { readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { writeBytesAtomically, writeTextAtomically } from '../files/atomic-write.ts';
import { Refusal } from '../ipc/answer.ts';
import type { KeptOutside, OutsideOpening, StoreHost } from '../ipc/contract.ts';
import { LARGEST_PHOTO_BYTES, outsideOpening } from '../ipc/store-messages.ts';
import { isMissing } from './own-scenarios.ts';

type OutsideHost = Pick<
  StoreHost,
  'listOutsideOpenings' | 'keepOutsideOpening' | 'loadOutsideOpening' | 'removeOutsideOpening'
>;

/** Where they are in the data folder. Neither bundles nor backups look there. */
export const OUTSIDE_FOLDER = 'outside';
/** With their photographs they may take 1.2 GB at most. Assumed. */
export const MOST_OUTSIDE = 100;
const FILE = /^outside-([0-9a-f-]{36})\.(json|photo)$/;
/** First bytes of the pictures that a browser shows: JPEG, PNG, WebP; null where any byte may stand. */
const PICTURES: readonly (readonly (number | null)[])[] = [
  [0xff, 0xd8, 0xff],
  [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
  [0x52, 0x49, 0x46, 0x46, null, null, null, null, 0x57, 0x45, 0x42, 0x50],
];

const isPicture = (bytes: Uint8Array): boolean =>
  PICTURES.some((start) => start.every((byte, at) => byte === null || bytes[at] === byte));

/** How one is listed that cannot be read any more, so that it can still be removed. */
const UNREADABLE = { name: 'Cannot be read any more', keptAt: '' };

function photoBytes(photo: string): Uint8Array {
  const bytes = Buffer.from(photo, 'base64');
  if (bytes.length > LARGEST_PHOTO_BYTES) throw new Refusal('the photograph is larger than 12 MB and was not kept');
  if (!isPicture(bytes)) throw new Refusal('only JPEG, PNG and WebP photographs are kept');
  return bytes;
}

/**
 * Openings from outside that a person asked to keep, each a file of its own in the data folder; the photograph lies
 * beside it only where that was asked for as well. They are sent nowhere.
 */
export function outsideOpenings(dataFolder: string): OutsideHost {
  const folder = join(dataFolder, OUTSIDE_FOLDER);
  const pathOf = (id: string, ending: 'json' | 'photo'): string => join(folder, `outside-${id}.${ending}`);
  // one after the other, so that a photograph without its opening is one that was left behind
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = queue.then(work);
    queue = done.catch(() => undefined);
    return done;
  };
  const remove = async (id: string): Promise<void> => {
    // the photograph first: it must never be what stays
    await rm(pathOf(id, 'photo'), { force: true });
    await rm(pathOf(id, 'json'), { force: true });
  };
  const read = async (id: string): Promise<OutsideOpening> => {
    try {
      return outsideOpening.parse(JSON.parse(await readFile(pathOf(id, 'json'), 'utf8')));
    } catch {
      throw new Refusal('this kept opening is gone or cannot be read any more');
    }
  };
  const photoSize = (id: string): Promise<number | null> =>
    stat(pathOf(id, 'photo')).then(
      ({ size }) => size,
      () => null,
    );
  const ids = async (): Promise<readonly string[]> => {
    const names = await readdir(folder).catch((fault) => (isMissing(fault) ? [] : Promise.reject(fault)));
    const found = names.flatMap((name) => {
      const [, id, ending] = FILE.exec(name) ?? [];
      return id === undefined ? [] : [{ id, ending }];
    });
    const whole = new Set(found.filter(({ ending }) => ending === 'json').map(({ id }) => id));
    // a program that was killed between the two left a photograph that nobody could find or remove
    for (const { id } of found) if (!whole.has(id)) await remove(id);
    return [...whole];
  };

  return {
    listOutsideOpenings: () =>
      inTurn(async () => {
        const kept = await Promise.all(
          (await ids()).map(async (id): Promise<KeptOutside> => {
            const { name, keptAt } = await read(id).catch(() => UNREADABLE);
            return { id, name, keptAt, photoBytes: await photoSize(id) };
          }),
        );
        return kept.sort((a, b) => (a.keptAt < b.keptAt ? 1 : -1));
      }),
    keepOutsideOpening: (opening, photo) =>
      inTurn(async () => {
        if ((await ids()).length >= MOST_OUTSIDE) {
          throw new Refusal(`there are ${MOST_OUTSIDE} kept openings already; remove one first`);
        }
        const bytes = photo === null ? null : photoBytes(photo);
        const id = randomUUID();
        if (bytes !== null) await writeBytesAtomically(pathOf(id, 'photo'), bytes);
        await writeTextAtomically(pathOf(id, 'json'), `${JSON.stringify(opening)}\n`);
        return id;
      }),
    loadOutsideOpening: (id) =>
      inTurn(async () => {
        const opening = await read(id);
        const size = await photoSize(id);
        if (size === null || size > LARGEST_PHOTO_BYTES) return { opening, photo: null };
        return { opening, photo: (await readFile(pathOf(id, 'photo'))).toString('base64') };
      }),
    removeOutsideOpening: (id) => inTurn(() => remove(id)),
  };
}
