import type { SessionState } from '../../stores/session-store.ts';
import type { Aid } from '../../stores/view-store.ts';

/** True where the scenario offers this aid. */
export const offersAid = (scenario: SessionState['scenario'], aid: Aid): boolean =>
  scenario === null || (aid === 'targetCircle' ? scenario.aids.targetCircle : scenario.aids.arrows);

/**
 * The aids on the stage. At the bench a person turns on what the scenario offers; in a trial exactly what the scenario
 * offers is on, the same for everybody.
 */
export function shownAids(
  { scenario, place }: Pick<SessionState, 'scenario' | 'place'>,
  wanted: Readonly<Record<Aid, boolean>>,
): Readonly<Record<Aid, boolean>> {
  const shown = (aid: Aid) => offersAid(scenario, aid) && (place === 'trial' || wanted[aid]);
  return {
    pull: shown('pull'),
    sheet: shown('sheet'),
    resultant: shown('resultant'),
    targetCircle: shown('targetCircle'),
  };
}
