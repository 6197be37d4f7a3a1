import {
  bad,
  checkHand,
  checkScenario,
  type Hand,
  handMisfits,
  ok,
  type Problem,
  type Result,
  type Scenario,
} from '../../../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../../../scenarios/shipped.ts';
import type { EyeChange, TwinHand, TwinSetup } from '../contract.ts';
import { type Board, type BoardSide, LIVE_HAND } from './board.ts';

/** Finds a scenario by its id; null where there is none. */
export type ScenarioById = (id: string) => Scenario | null;

/** The shipped scenario of that id, through the check of files. */
export function shippedScenario(id: string): Scenario | null {
  const found = SHIPPED_SCENARIOS.find((one) => one.id === id);
  const checked = found && checkScenario(found.data, found.file);
  return checked?.ok ? checked.value : null;
}

export function shippedHand(id: string): Hand | null {
  const found = SHIPPED_HANDS.find((one) => one.id === id);
  const checked = found && checkHand(found.data, found.file);
  return checked?.ok ? checked.value : null;
}

/** The scenario with one eye's changes made; not yet checked. */
export function changedScenario(scenario: Scenario, change: EyeChange): Scenario {
  const { age_years, behindPressure_mmHg, fluid, dyed } = change;
  const { eye, chamber } = scenario;
  return {
    ...scenario,
    eye: { ...eye, age_years: age_years ?? eye.age_years, dyed: dyed ?? eye.dyed },
    chamber: {
      ...chamber,
      behindPressure_mmHg: behindPressure_mmHg ?? chamber.behindPressure_mmHg,
      fluid: fluid ?? chamber.fluid,
    },
  };
}

const under = (problems: readonly Problem[], file: string, ...path: readonly string[]): readonly Problem[] =>
  problems.map((one) => ({ ...one, file, path: [...path, one.path].filter((part) => part !== '').join('.') }));

function scenarioOf(value: unknown, scenarioById: ScenarioById, file: string, path: string): Result<Scenario> {
  if (typeof value === 'string') {
    const known = scenarioById(value);
    if (known !== null) return ok(known);
    return bad([
      { file, path, found: JSON.stringify(value.slice(0, 80)), allowed: 'the id of a scenario that is here' },
    ]);
  }
  const checked = checkScenario(value, file);
  return checked.ok ? checked : bad(under(checked.problems, file, path));
}

function handOf(value: unknown, file: string, path: string): Result<TwinHand> {
  if (value === LIVE_HAND) return ok({ kind: 'live' });
  if (typeof value === 'string') {
    const known = shippedHand(value);
    if (known !== null) return ok({ kind: 'program', hand: known });
    const found = JSON.stringify(value.slice(0, 80));
    return bad([{ file, path, found, allowed: '"live", the id of a guided hand that ships, or a whole hand' }]);
  }
  const checked = checkHand(value, file);
  return checked.ok ? ok({ kind: 'program', hand: checked.value }) : bad(under(checked.problems, file, path));
}

function eyeOf(scenario: Scenario, side: BoardSide, file: string, path: string): Result<Scenario> {
  const checked = checkScenario(changedScenario(scenario, side.change), file);
  if (checked.ok) return checked;
  const problems = checked.problems.map((one) => ({ ...one, path, allowed: `${one.path} ${one.allowed}` }));
  return bad(problems);
}

/** What of a board decides how its eyes run; scenario and hand may still be anything. */
export type BoardPair = Pick<Board, 'left' | 'right' | 'seed'> & { readonly scenario: unknown; readonly hand: unknown };

/**
 * The pair that a board runs.
 *
 * @param file name for the problems
 * @param at place of the board in the file, such as `boards[2]`; empty for none
 * @returns the setup, both eyes and the hand checked apart and together; or every problem
 */
export function boardSetup(board: BoardPair, scenarioById: ScenarioById, file: string, at: string): Result<TwinSetup> {
  const place = (name: string): string => (at === '' ? name : `${at}.${name}`);
  const scenario = scenarioOf(board.scenario, scenarioById, file, place('scenario'));
  const hand = handOf(board.hand, file, place('hand'));
  if (!scenario.ok) return bad([...scenario.problems, ...(hand.ok ? [] : hand.problems)]);
  const left = eyeOf(scenario.value, board.left, file, place('left.change'));
  const right = board.right === null ? null : eyeOf(scenario.value, board.right, file, place('right.change'));
  const misfits =
    hand.ok && hand.value.kind === 'program'
      ? under(handMisfits(hand.value.hand, scenario.value, file), file, place('hand'))
      : [];
  const problems = [hand, left, right].flatMap((one) => (one === null || one.ok ? [] : one.problems)).concat(misfits);
  if (problems.length > 0 || !hand.ok || !left.ok || (right !== null && !right.ok)) return bad(problems);
  return ok({
    left: { label: board.left.label, scenario: left.value },
    right: right === null || board.right === null ? null : { label: board.right.label, scenario: right.value },
    hand: hand.value,
    seed: board.seed,
  });
}
