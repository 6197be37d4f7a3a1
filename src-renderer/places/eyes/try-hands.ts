import { checkHand, type GuidedHand, handMisfits, type Scenario } from '../../../physics/index.ts';
import { HOLDING_HAND, SHIPPED_HANDS } from '../../../scenarios/shipped.ts';

/** Shipped guided hands that begin as the scenario does; the one that is known to hold it, if any, first. */
export function handsFor(scenario: Scenario): readonly GuidedHand[] {
  const holding = HOLDING_HAND[scenario.id];
  const hands = SHIPPED_HANDS.flatMap(({ data, file }): GuidedHand[] => {
    const checked = checkHand(data, file);
    if (!checked.ok || checked.value.kind !== 'guided') return [];
    return handMisfits(checked.value, scenario, file).length === 0 ? [checked.value] : [];
  });
  const rank = ({ id, follow }: GuidedHand): number => (id === holding ? 0 : follow === undefined ? 2 : 1);
  return hands.toSorted((a, b) => rank(a) - rank(b));
}

/** The circle that a hand follows in this scenario unless told otherwise: its own where it ships for it, else the line. */
export function usualCircle_mm(hand: GuidedHand, scenario: Scenario): number | null {
  if (hand.follow === undefined) return null;
  return HOLDING_HAND[scenario.id] === hand.id ? hand.follow.diameter_mm : scenario.target.lineDiameter_mm;
}

/** The same hand on a circle of another diameter. */
export const onCircle = (hand: GuidedHand, diameter_mm: number): GuidedHand =>
  hand.follow === undefined ? hand : { ...hand, follow: { ...hand.follow, diameter_mm } };
