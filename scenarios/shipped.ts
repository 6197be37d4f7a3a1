/*
 * The scenarios and guided hands that ship, as raw data, so that a bundle carries them without a file system.
 * They go through the same check as any other file before use.
 */

import adultBaseline from './adult-baseline.json' with { type: 'json' };
import adultShallowChamber from './adult-shallow-chamber.json' with { type: 'json' };
import adultHolding from './hands/adult-holding.json' with { type: 'json' };
import adultShallowHolding from './hands/adult-shallow-holding.json' with { type: 'json' };
import centrePull from './hands/centre-pull.json' with { type: 'json' };
import infantBehindHolding from './hands/infant-behind-holding.json' with { type: 'json' };
import infantNeedleHolding from './hands/infant-needle-holding.json' with { type: 'json' };
import infantThickHolding from './hands/infant-thick-holding.json' with { type: 'json' };
import infantThinHolding from './hands/infant-thin-holding.json' with { type: 'json' };
import laterImplantHolding from './hands/later-implant-holding.json' with { type: 'json' };
import needleTangent from './hands/needle-tangent.json' with { type: 'json' };
import offCentreHolding from './hands/off-centre-holding.json' with { type: 'json' };
import pairHolding from './hands/pair-holding.json' with { type: 'json' };
import rescue from './hands/rescue.json' with { type: 'json' };
import rescueLate from './hands/rescue-late.json' with { type: 'json' };
import sixHolding from './hands/six-holding.json' with { type: 'json' };
import smallPupilHolding from './hands/small-pupil-holding.json' with { type: 'json' };
import tangentPull from './hands/tangent-pull.json' with { type: 'json' };
import twentyHolding from './hands/twenty-holding.json' with { type: 'json' };
import twoHolding from './hands/two-holding.json' with { type: 'json' };
import twoNicksHolding from './hands/two-nicks-holding.json' with { type: 'json' };
import twoNicksTangent from './hands/two-nicks-tangent.json' with { type: 'json' };
import watches from './hands/watches.json' with { type: 'json' };
import whiteLensHasty from './hands/white-lens-hasty.json' with { type: 'json' };
import whiteLensHolding from './hands/white-lens-holding.json' with { type: 'json' };
import infantNeedle from './infant-needle.json' with { type: 'json' };
import infantPressureBehind from './infant-pressure-behind.json' with { type: 'json' };
import infantThickFluid from './infant-thick-fluid.json' with { type: 'json' };
import infantThinFluid from './infant-thin-fluid.json' with { type: 'json' };
import infantTwoNicks from './infant-two-nicks.json' with { type: 'json' };
import laterImplant from './later-implant.json' with { type: 'json' };
import offCentreLens from './off-centre-lens.json' with { type: 'json' };
import pairDyed from './pair-dyed.json' with { type: 'json' };
import pairUndyed from './pair-undyed.json' with { type: 'json' };
import runningTear from './running-tear.json' with { type: 'json' };
import sixYears from './six-years.json' with { type: 'json' };
import smallPupil from './small-pupil.json' with { type: 'json' };
import swollenWhiteLens from './swollen-white-lens.json' with { type: 'json' };
import twentyYears from './twenty-years.json' with { type: 'json' };
import twoYears from './two-years.json' with { type: 'json' };

/** One shipped file: its id, its name for problem lists, and what it holds, unchecked. */
export interface ShippedFile {
  readonly id: string;
  readonly file: string;
  readonly data: unknown;
}

const shipped = (folder: string) => (data: { readonly id: string }) => ({
  id: data.id,
  file: `${folder}/${data.id}.json`,
  data,
});

/** In the order in which they are offered. */
export const SHIPPED_SCENARIOS: readonly ShippedFile[] = [
  infantThickFluid,
  infantThinFluid,
  infantPressureBehind,
  infantNeedle,
  infantTwoNicks,
  twoYears,
  runningTear,
  laterImplant,
  pairUndyed,
  pairDyed,
  sixYears,
  offCentreLens,
  twentyYears,
  smallPupil,
  swollenWhiteLens,
  adultBaseline,
  adultShallowChamber,
].map(shipped('scenarios'));

export const SHIPPED_HANDS: readonly ShippedFile[] = [
  infantThickHolding,
  infantThinHolding,
  infantBehindHolding,
  infantNeedleHolding,
  twoNicksHolding,
  twoHolding,
  rescue,
  laterImplantHolding,
  pairHolding,
  sixHolding,
  offCentreHolding,
  twentyHolding,
  smallPupilHolding,
  whiteLensHolding,
  adultHolding,
  adultShallowHolding,
  tangentPull,
  centrePull,
  rescueLate,
  watches,
  needleTangent,
  twoNicksTangent,
  whiteLensHasty,
].map(shipped('scenarios/hands'));

/** Guided hand that finishes each shipped scenario within its tolerances. */
export const HOLDING_HAND: Readonly<Record<string, string>> = {
  'infant-thick-fluid': 'infant-thick-holding',
  'infant-thin-fluid': 'infant-thin-holding',
  'infant-pressure-behind': 'infant-behind-holding',
  'infant-needle': 'infant-needle-holding',
  'infant-two-nicks': 'two-nicks-holding',
  'two-years': 'two-holding',
  'running-tear': 'rescue',
  'later-implant': 'later-implant-holding',
  'pair-undyed': 'pair-holding',
  'pair-dyed': 'pair-holding',
  'six-years': 'six-holding',
  'off-centre-lens': 'off-centre-holding',
  'twenty-years': 'twenty-holding',
  'small-pupil': 'small-pupil-holding',
  'swollen-white-lens': 'white-lens-holding',
  'adult-baseline': 'adult-holding',
  'adult-shallow-chamber': 'adult-shallow-holding',
};

/** Guided hand that does in each shipped scenario what its lesson warns of, and does not pass. */
export const FAILING_HAND: Readonly<Record<string, string>> = {
  'infant-thick-fluid': 'tangent-pull',
  'infant-thin-fluid': 'tangent-pull',
  'infant-pressure-behind': 'tangent-pull',
  'infant-needle': 'needle-tangent',
  'infant-two-nicks': 'two-nicks-tangent',
  'two-years': 'tangent-pull',
  'running-tear': 'rescue-late',
  'later-implant': 'tangent-pull',
  'pair-undyed': 'tangent-pull',
  'pair-dyed': 'tangent-pull',
  'six-years': 'tangent-pull',
  'off-centre-lens': 'tangent-pull',
  'twenty-years': 'tangent-pull',
  'small-pupil': 'tangent-pull',
  'swollen-white-lens': 'white-lens-hasty',
  'adult-baseline': 'tangent-pull',
  'adult-shallow-chamber': 'tangent-pull',
};

/** Eyes whose whole attempts the checks play: each fluid and start, child and adult. */
export const PLAYED_WHOLE: readonly string[] = [
  'infant-thick-fluid',
  'infant-thin-fluid',
  'infant-needle',
  'adult-baseline',
];
