/** Runs checks and turns what they find into rows that say whether the model agrees. */
import type { Check, CheckContext, Finding, KnownMiss } from './check.ts';
import { agrees, deviation, type Tolerance } from './compare.ts';

/** One line of the report. */
export interface CheckRow {
  readonly name: string;
  readonly problem: string;
  readonly quantity: string;
  /** Null when nothing could be computed; `note` tells why. */
  readonly computed: number | null;
  readonly reference: number | null;
  readonly unit: string;
  readonly tolerance: Tolerance | null;
  /** In the tolerance's own measure; null when nothing could be computed. */
  readonly deviation: number | null;
  readonly pass: boolean;
  readonly source: string;
  readonly note?: string;
  /** Given for a row that does not pass but is no further off than was declared. */
  readonly knownMiss?: KnownMiss;
}

/** Called before each check and once at the end with the number done. */
export type OnCheck = (done: number, of: number, name: string | null) => void;

/** Rows of the given checks, in order. Never throws: a check that does is a failed row. */
export function runChecks(checks: readonly Check[], context: CheckContext, onCheck?: OnCheck): readonly CheckRow[] {
  const rows: CheckRow[] = [];
  checks.forEach((check, done) => {
    onCheck?.(done, checks.length, check.name);
    rows.push(...runCheck(check, context));
  });
  onCheck?.(checks.length, checks.length, null);
  return rows;
}

/** Rows of one check. */
export function runCheck(check: Check, context: CheckContext): readonly CheckRow[] {
  try {
    const findings = check.run(context);
    if (findings.length === 0) return [failedRow(check, 'the check found nothing')];
    return findings.map((finding) => rowOf(check, finding));
  } catch (fault) {
    return [failedRow(check, fault instanceof Error ? fault.message : String(fault))];
  }
}

function rowOf(check: Check, finding: Finding): CheckRow {
  const { computed, reference, tolerance, knownMiss, ...rest } = finding;
  const { name, problem, source } = check;
  const off = deviation(computed, reference, tolerance);
  const pass = agrees(computed, reference, tolerance);
  const known = !pass && knownMiss !== undefined && off <= knownMiss.size ? { knownMiss } : {};
  const finite = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    name,
    problem,
    source,
    ...rest,
    computed: finite(computed),
    reference: finite(reference),
    tolerance,
    deviation: finite(off),
    pass,
    ...known,
  };
}

const failedRow = (check: Check, note: string): CheckRow => ({
  name: check.name,
  problem: check.problem,
  quantity: 'the whole check',
  computed: null,
  reference: null,
  unit: '',
  tolerance: null,
  deviation: null,
  pass: false,
  source: check.source,
  note,
});

/** True when every row passes or is a known miss of no more than its declared size. */
export const allAgree = (rows: readonly CheckRow[]): boolean =>
  rows.length > 0 && rows.every((row) => row.pass || row.knownMiss !== undefined);
