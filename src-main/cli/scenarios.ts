import type { Problem, Result, Scenario } from '../../physics/index.ts';
import { HOLDING_HAND, SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';
import { t, textOf } from '../words/words.ts';
import { type Command, DONE } from './command.ts';
import { findHand, findScenario } from './scenario-and-hand.ts';
import { table } from './table.ts';

const problemsOf = (result: Result<unknown>): readonly Problem[] => (result.ok ? [] : result.problems);

function listed() {
  const eyes = SHIPPED_SCENARIOS.map(({ id }) => ({ id, found: findScenario(id) }));
  const hands = SHIPPED_HANDS.map(({ id }) => ({ id, found: findHand(id) }));
  return {
    scenarios: eyes.map(({ id, found }) => ({
      id,
      title: found.ok ? found.value.title : null,
      holdingHand: HOLDING_HAND[id] ?? null,
      problems: problemsOf(found),
    })),
    hands: hands.map(({ id, found }) => ({
      id,
      title: found.ok ? found.value.title : null,
      problems: problemsOf(found),
    })),
  };
}

function listTable({ scenarios, hands }: ReturnType<typeof listed>): string {
  const rows = [
    ...scenarios.map(({ id, title, holdingHand }) => [
      id,
      textOf(title ?? ''),
      holdingHand === null ? '' : t('terminal.scenarios.heldBy', { hand: holdingHand }),
    ]),
    [''],
    ...hands.map(({ id, title }) => [id, textOf(title ?? '')]),
  ];
  return table(rows);
}

const described = ({ id, title, eye }: Scenario) => ({ id, title, age_years: eye.age_years });

export const scenarios: Command = {
  name: 'scenarios',
  positionals: [0, 0],
  options: { check: { type: 'string' } },
  run: async ({ options, json, output }) => {
    if (typeof options.check === 'string') {
      const found = findScenario(options.check);
      // What was found wrong is the result of a check; it goes to both.
      if (!found.ok) {
        if (json) output.result(`${JSON.stringify({ id: null, title: null, problems: found.problems }, null, 2)}\n`);
        return found.problems;
      }
      const result = { ...described(found.value), problems: [] };
      output.result(
        json ? `${JSON.stringify(result, null, 2)}\n` : `${t('terminal.scenarios.sound', { id: result.id })}\n`,
      );
      return DONE;
    }
    const list = listed();
    output.result(json ? `${JSON.stringify(list, null, 2)}\n` : listTable(list));
    const broken = [...list.scenarios, ...list.hands].flatMap(({ problems }) => problems);
    return broken.length === 0 ? DONE : broken;
  },
};
