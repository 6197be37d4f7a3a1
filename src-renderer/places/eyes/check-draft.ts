import { checkScenario, type Problem, type Scenario } from '../../../physics/index.ts';
import type { Draft } from './draft.ts';

export interface Checked {
  /** Null while there are problems. */
  readonly scenario: Scenario | null;
  readonly problems: readonly Problem[];
}

/**
 * Judges a draft by the parser that judges files, and by one rule more: its id must be its own.
 *
 * @param taken ids of all other scenarios, shipped and own
 */
export function checkDraft(draft: Draft, taken: ReadonlySet<string>): Checked {
  const file = typeof draft.id === 'string' && draft.id !== '' ? draft.id : 'scenario';
  const checked = checkScenario(draft, file);
  const { id } = draft;
  const clash: Problem[] =
    typeof id === 'string' && taken.has(id)
      ? [{ file, path: 'id', found: JSON.stringify(id), allowed: 'a name that no other scenario has' }]
      : [];
  if (checked.ok && clash.length === 0) return { scenario: checked.value, problems: [] };
  return { scenario: null, problems: [...clash, ...(checked.ok ? [] : checked.problems)] };
}

/** A free id made of a wish: `wish`, else `wish-2`, `wish-3`... Shortened so that it stays within 64 characters. */
export function freeId(wish: string, taken: ReadonlySet<string>): string {
  const plain = wish
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 56)
    .replace(/-+$/, '');
  const stem = plain === '' ? 'scenario' : plain;
  if (!taken.has(stem)) return stem;
  let count = 2;
  while (taken.has(`${stem}-${count}`)) count++;
  return `${stem}-${count}`;
}
