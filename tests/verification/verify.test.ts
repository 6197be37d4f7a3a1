import { describe, expect, it } from 'vitest';
import { type Attempt, allChecks, type CheckRow, runCheck } from '../../physics/index.ts';
import { HOLDING_HAND, PLAYED_WHOLE } from '../../scenarios/shipped.ts';
import { findHand, findScenario } from '../../src-main/cli/scenario-and-hand.ts';
import { textsOfRow, untold } from '../support/check-texts.ts';

const CHECKS = allChecks();
const attempts = PLAYED_WHOLE.map((id) => [id, HOLDING_HAND[id]] as const).map(([scenarioId, handId]): Attempt => {
  const scenario = findScenario(scenarioId);
  const hand = findHand(handId);
  if (!scenario.ok || !hand.ok) throw new Error(`${scenarioId} or ${handId} is not sound`);
  return { scenario: scenario.value, hand: hand.value };
});

const wrong = (rows: readonly CheckRow[]) =>
  rows
    .filter((row) => !row.pass && row.knownMiss === undefined)
    .map(
      (row) => `${row.quantity}: ${row.computed} against ${row.reference}, off by ${row.deviation}. ${row.note ?? ''}`,
    );

describe('the model against answers from outside', () => {
  for (const check of CHECKS.filter(({ quick }) => quick))
    it(`${check.name}: ${check.problem}`, () => {
      const rows = runCheck(check, { attempts, twoNicks: null });
      expect(wrong(rows)).toEqual([]);
      // what it says has words in every language
      expect(untold(check.name, rows.flatMap(textsOfRow))).toEqual([]);
    });

  const slow = CHECKS.filter(({ quick }) => !quick);
  it.skip(`${slow.map(({ name }) => name).join(', ')}: longer than a few seconds, run by npm run verify`, () => {});
});

describe('the list of checks', () => {
  it('has each name once', () => {
    const names = CHECKS.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });

  it('holds the twelve that had to stand first', () => {
    expect(CHECKS.filter(({ first }) => first).map(({ name }) => name)).toEqual(
      'A1 A2 A3 A7 A11 A12 A16 B1 B4 B8 B9 B11'.split(' '),
    );
  });

  it('a check of whole attempts without one to play fails', () => {
    for (const name of ['A16', 'A16-short']) {
      const check = CHECKS.find((one) => one.name === name)!;
      const rows = runCheck(check, { attempts: [], twoNicks: null });
      expect(rows.map((row) => row.pass)).toEqual([false]);
    }
  });
});
