import {
  type Attempt,
  allAgree,
  allChecks,
  type Check,
  type CheckRow,
  type Problem,
  runChecks,
  TEACHING_CAUTION,
  type Tolerance,
} from '../../physics/index.ts';
import { HOLDING_HAND, PLAYED_WHOLE } from '../../scenarios/shipped.ts';
import { t, textOf } from '../words/words.ts';
import { ANSWER_IS_NO, argumentProblem, type Command, DONE } from './command.ts';
import { findHand, findScenario } from './scenario-and-hand.ts';
import { digits, figure, table } from './table.ts';

/** A shipped eye with the hand that holds the circle in it. */
function shippedAttempt(scenarioId: string): Attempt {
  const scenario = findScenario(scenarioId);
  const hand = findHand(HOLDING_HAND[scenarioId]);
  if (!scenario.ok || !hand.ok) throw new Error(`${scenarioId} or its hand is not sound`);
  return { scenario: scenario.value, hand: hand.value };
}

/** The checks asked for, or what is wrong with the name. Names are taken in either case. */
function chosen(only: string | boolean | undefined): readonly Check[] | Problem {
  const checks = allChecks();
  if (typeof only !== 'string') return checks;
  const found = checks.filter((check) => check.name.toLowerCase() === only.toLowerCase());
  if (found.length > 0) return found;
  const allowed = checks.map(({ name }) => name).join(', ');
  return argumentProblem('--only', `"${only}"`, allowed);
}

function toleranceText(tolerance: Tolerance | null, unit: string): string {
  if (tolerance === null) return '';
  if (tolerance.kind === 'relative') return `${figure(100 * tolerance.allowed)} %`;
  return `${digits(String(tolerance.allowed))} ${tolerance.kind === 'angle' ? 'deg' : unit}`;
}

type Verdict = 'pass' | 'fail' | 'knownMiss';
const verdict = (row: CheckRow): Verdict => (row.pass ? 'pass' : row.knownMiss === undefined ? 'fail' : 'knownMiss');
const orDash = (value: number | null): string => (value === null ? '-' : figure(value));

function reportTable(rows: readonly CheckRow[]): string {
  const lines = rows.map((row) => [
    row.name,
    t(`terminal.verify.${verdict(row)}`),
    row.quantity,
    orDash(row.computed),
    t('terminal.verify.against', { reference: orDash(row.reference), unit: row.unit }),
    t('terminal.verify.within', { tolerance: toleranceText(row.tolerance, row.unit) }),
  ]);
  const remarks = rows
    .filter((row) => !row.pass)
    .map(
      (row) => `${row.name}, ${row.quantity}: ${row.knownMiss?.reason ?? row.note ?? `${row.problem}; ${row.source}`}`,
    );
  const count = (word: Verdict) => rows.filter((row) => verdict(row) === word).length;
  const sums = t('terminal.verify.sums', {
    pass: count('pass'),
    fail: count('fail'),
    missed: count('knownMiss'),
  });
  return `${table(lines)}\n${[...remarks, sums, textOf(TEACHING_CAUTION)].join('\n')}\n`;
}

function list(json: boolean): string {
  const checks = allChecks().map(({ name, problem, source, first, quick }) => ({
    name,
    problem,
    source,
    first,
    quick,
  }));
  if (json) return `${JSON.stringify({ checks }, null, 2)}\n`;
  return table(checks.map(({ name, problem, source }) => [name, problem, source]));
}

/** The model against answers from outside. */
export const verify: Command = {
  name: 'verify',
  positionals: [0, 0],
  options: { only: { type: 'string' }, list: { type: 'boolean' } },
  run: async ({ options, json, output }) => {
    const checks = chosen(options.only);
    if ('file' in checks) return [checks];
    if (options.list === true) {
      output.result(list(json));
      return DONE;
    }
    // in the order in which they ship
    const context = { attempts: PLAYED_WHOLE.map(shippedAttempt), twoNicks: shippedAttempt('infant-two-nicks') };
    const rows = runChecks(checks, context, (done, of, name) => {
      if (name !== null) output.message(`${t('terminal.progress.check', { number: done + 1, all: of, name })}\n`);
    });
    const pass = allAgree(rows);
    const result = { pass, checks: rows, caution: TEACHING_CAUTION };
    output.result(json ? `${JSON.stringify(result, null, 2)}\n` : reportTable(rows));
    return pass ? DONE : ANSWER_IS_NO;
  },
};
