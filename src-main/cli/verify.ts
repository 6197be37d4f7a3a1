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
import { checkText } from '../words/check-words.ts';
import { t, textOf, unitOf } from '../words/words.ts';
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

const withUnit = (value: string, unit: string): string => (unit === '' ? value : `${value} ${unit}`);

function toleranceText(tolerance: Tolerance, unit: string): string {
  if (tolerance.kind === 'relative') return `${figure(100 * tolerance.allowed)} %`;
  return withUnit(digits(String(tolerance.allowed)), tolerance.kind === 'angle' ? unitOf('deg') : unit);
}

type Verdict = 'pass' | 'fail' | 'knownMiss';
const verdict = ({ pass, knownMiss }: Pick<CheckRow, 'pass' | 'knownMiss'>): Verdict =>
  pass ? 'pass' : knownMiss === undefined ? 'fail' : 'knownMiss';
const orDash = (value: number | null): string => (value === null ? '-' : figure(value));

function reportLine({ name, quantity, computed, reference, tolerance, ...row }: CheckRow): readonly string[] {
  const unit = unitOf(checkText(name, row.unit));
  const head = [name, t(`terminal.verify.${verdict(row)}`), checkText(name, quantity), orDash(computed)];
  // nothing was computed
  if (tolerance === null) return head;
  return [
    ...head,
    t('terminal.verify.against', { reference: withUnit(orDash(reference), unit) }),
    t('terminal.verify.within', { tolerance: toleranceText(tolerance, unit) }),
  ];
}

/** What there is to say about a row that does not pass. */
function remark({ name, quantity, problem, source, note, knownMiss }: CheckRow): string {
  const tell = (text: string) => checkText(name, text);
  const because = knownMiss?.reason ?? note;
  return `${name}, ${tell(quantity)}: ${because === undefined ? `${tell(problem)}; ${tell(source)}` : tell(because)}`;
}

/** Rows as a table, what there is to say about those that do not pass, and the count. */
export function reportTable(rows: readonly CheckRow[]): string {
  const lines = rows.map(reportLine);
  const remarks = rows.filter(({ pass }) => !pass).map(remark);
  const count = (word: Verdict) => rows.filter((row) => verdict(row) === word).length;
  const sums = t('terminal.verify.sums', {
    passed: t('terminal.verify.passed', { count: count('pass') }),
    failed: t('terminal.verify.failed', { count: count('fail') }),
    missed: t('terminal.verify.missed', { count: count('knownMiss') }),
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
  return table(checks.map(({ name, problem, source }) => [name, checkText(name, problem), checkText(name, source)]));
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
