import schema from '../../../scenarios/scenario.schema.json' with { type: 'json' };
import { t } from '../../i18n/text.ts';
import { plainNumber, withUnit } from '../../ui/plain-number.ts';
import { type Path, valueIn } from './draft.ts';

/** What the file format allows a number to be. */
export interface Limits {
  readonly low: number | null;
  readonly high: number | null;
  /** True when the low end itself is not allowed. */
  readonly above: boolean;
}

type Node = Parameters<typeof valueIn>[0];

function child(node: Node, part: string | number, startKind: string): Node {
  if (typeof part === 'number') return valueIn(node, ['prefixItems', part]) ?? valueIn(node, ['items']);
  const branches = valueIn(node, ['oneOf']);
  if (!Array.isArray(branches)) return valueIn(node, ['properties', part]);
  const branch = (branches as readonly Node[]).find(
    (one) => valueIn(one, ['properties', 'kind', 'const']) === startKind,
  );
  return valueIn(branch, ['properties', part]);
}

/**
 * Limits of a number, read from the published schema of scenario files, so that a screen cannot say others than the parser.
 *
 * @param startKind which of the starts a path under `start` belongs to
 */
export function limitsAt(path: Path, startKind = ''): Limits {
  const node = path.reduce<Node>((at, part) => child(at, part, startKind), schema as unknown as Node);
  const given = (key: string): number | null => {
    const value = valueIn(node, [key]);
    return typeof value === 'number' ? value : null;
  };
  const open = given('exclusiveMinimum');
  return { low: open ?? given('minimum'), high: given('maximum'), above: open !== null };
}

/** "0 to 95 years", "above 0, up to 100 µm". */
export function limitsWords({ low, high, above }: Limits, unit: string): string {
  if (low === null || high === null) return '';
  const range = { low: plainNumber(low), high: withUnit(plainNumber(high), unit) };
  return above ? t('eyes.range.above', range) : t('eyes.range.between', range);
}
