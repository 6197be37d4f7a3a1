/**
 * A scenario while it is being written: plain JSON of the same shape as the file, sound or not. What a person types that
 * is no number stays in it as the text it is, so that the parser of files says what is wrong and nothing typed is lost.
 */
import type { Scenario } from '../../../physics/index.ts';

export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };
export type Draft = { readonly [key: string]: Json };
export type Path = readonly (string | number)[];

/** `incisions[0].width_mm`, as the parser names places. */
export const pathText = (path: Path): string =>
  path.reduce<string>(
    (text, part) => (typeof part === 'number' ? `${text}[${part}]` : text === '' ? part : `${text}.${part}`),
    '',
  );

/** What stands at a place; undefined where there is nothing. */
export function valueIn(draft: Json | undefined, path: Path): Json | undefined {
  let value: Json | undefined = draft;
  for (const part of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return undefined;
    value = (value as Readonly<Record<string | number, Json>>)[part];
  }
  return value;
}

/** A copy with a value put at a place, or taken away when it is undefined. Objects on the way are made where missing. */
export function withValue(draft: Draft, path: Path, value: Json | undefined): Draft {
  return replaced(draft, path, value) as Draft;
}

function replaced(node: Json | undefined, path: Path, value: Json | undefined): Json | undefined {
  const [part, ...rest] = path;
  if (part === undefined) return value;
  if (typeof part === 'number') {
    const list = Array.isArray(node) ? [...(node as readonly Json[])] : [];
    const next = replaced(list[part], rest, value);
    if (next === undefined) list.splice(part, 1);
    else list[part] = next;
    return list;
  }
  const object = typeof node === 'object' && node !== null && !Array.isArray(node) ? { ...(node as Draft) } : {};
  const next = replaced(object[part], rest, value);
  if (next === undefined) delete object[part];
  else object[part] = next;
  return object;
}

/** What a typed number means: the number, with a decimal comma read as a point, or the text where it is none. */
export function typedNumber(text: string): number | string {
  const plain = text
    .trim()
    .replace('−', '-')
    .replace(/^([^,]*),([^,]*)$/, '$1.$2');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(plain)) return text;
  const number = Number(plain);
  return Number.isFinite(number) ? number : text;
}

export const draftOf = (scenario: Scenario): Draft => JSON.parse(JSON.stringify(scenario)) as Draft;

/** The same content, whatever the order of the keys. */
export function sameJson(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  const other = b as Readonly<Record<string, Json>>;
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(b, key) && sameJson((a as Readonly<Record<string, Json>>)[key], other[key]))
  );
}
