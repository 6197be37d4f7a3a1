/** Computed points kept in the browser's own store between starts: they cost minutes and change only with the model. */
import { createStore, delMany, getMany, keys, set } from 'idb-keyval';
import { MODEL_VERSION } from '../../../../physics/index.ts';
import { type AgeCell, type AgeValue, cellKey, isOfVersion } from './cell-key.ts';

const store = createStore('rimward-age-charts', 'values');

/** What was written may be anything by now. */
function asValue(kept: unknown): AgeValue | null {
  if (typeof kept !== 'object' || kept === null || !('value' in kept)) return null;
  const { value } = kept;
  return value === null || (typeof value === 'number' && Number.isFinite(value)) ? { value } : null;
}

/** Values of the cells that are kept, by key; nothing where the browser keeps nothing. */
export async function keptValues(cells: readonly AgeCell[]): Promise<ReadonlyMap<string, AgeValue>> {
  const asked = cells.map((cell) => cellKey(MODEL_VERSION, cell));
  const found = await getMany<unknown>(asked, store).catch(unkept);
  const values = new Map<string, AgeValue>();
  for (const [at, key] of asked.entries()) {
    const value = asValue(found?.[at]);
    if (value !== null) values.set(key, value);
  }
  return values;
}

/** A cell that could not be computed is not kept: it is tried again. */
export async function keepValue(key: string, value: AgeValue): Promise<void> {
  if ('value' in value) await set(key, value, store).catch(unkept);
}

/** Values of other versions of the model go. */
export async function dropOldValues(): Promise<void> {
  const all = await keys<string>(store).catch(unkept);
  const old = (all ?? []).filter((key) => !isOfVersion(String(key), MODEL_VERSION));
  if (old.length > 0) await delMany(old, store).catch(unkept);
}

/** Only the time to compute them again is lost. */
const unkept = (fault: unknown): undefined => {
  console.warn('kept points of charts:', fault);
};
