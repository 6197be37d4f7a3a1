import type { PersonColour } from '../../src-main/ipc/contract.ts';

/** The first letters of up to two words of a name. */
export const initialsOf = (name: string): string =>
  name
    .trim()
    .split(/\s+/u)
    .slice(0, 2)
    .map((word) => [...word][0] ?? '')
    .join('')
    .toLocaleUpperCase();

/** A person's letters on the person's colour; goes beside the name, never instead of it. */
export function PersonMark({ name, colour }: { readonly name: string; readonly colour: PersonColour }) {
  return (
    <span className="person-mark" data-colour={colour} aria-hidden="true">
      {initialsOf(name)}
    </span>
  );
}
