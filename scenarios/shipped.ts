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
import offCentreHolding from './hands/off-centre-holding.json' with { type: 'json' };
import pairHolding from './hands/pair-holding.json' with { type: 'json' };
import sixHolding from './hands/six-holding.json' with { type: 'json' };
import smallPupilHolding from './hands/small-pupil-holding.json' with { type: 'json' };
import tangentPull from './hands/tangent-pull.json' with { type: 'json' };
import twentyHolding from './hands/twenty-holding.json' with { type: 'json' };
import twoHolding from './hands/two-holding.json' with { type: 'json' };
import infantNeedle from './infant-needle.json' with { type: 'json' };
import infantPressureBehind from './infant-pressure-behind.json' with { type: 'json' };
import infantThickFluid from './infant-thick-fluid.json' with { type: 'json' };
import infantThinFluid from './infant-thin-fluid.json' with { type: 'json' };
import laterImplant from './later-implant.json' with { type: 'json' };
import offCentreLens from './off-centre-lens.json' with { type: 'json' };
import pairDyed from './pair-dyed.json' with { type: 'json' };
import pairUndyed from './pair-undyed.json' with { type: 'json' };
import sixYears from './six-years.json' with { type: 'json' };
import smallPupil from './small-pupil.json' with { type: 'json' };
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
  infantNeedle,
  adultBaseline,
  adultShallowChamber,
  infantPressureBehind,
  twoYears,
  sixYears,
  twentyYears,
  pairUndyed,
  pairDyed,
  smallPupil,
  offCentreLens,
  laterImplant,
].map(shipped('scenarios'));

export const SHIPPED_HANDS: readonly ShippedFile[] = [
  infantThickHolding,
  infantThinHolding,
  infantNeedleHolding,
  adultHolding,
  adultShallowHolding,
  infantBehindHolding,
  twoHolding,
  sixHolding,
  twentyHolding,
  pairHolding,
  smallPupilHolding,
  offCentreHolding,
  laterImplantHolding,
  tangentPull,
  centrePull,
].map(shipped('scenarios/hands'));

/** Guided hand that holds the circle in each shipped scenario. */
export const HOLDING_HAND: Readonly<Record<string, string>> = {
  'infant-thick-fluid': 'infant-thick-holding',
  'infant-thin-fluid': 'infant-thin-holding',
  'infant-needle': 'infant-needle-holding',
  'adult-baseline': 'adult-holding',
  'adult-shallow-chamber': 'adult-shallow-holding',
  'infant-pressure-behind': 'infant-behind-holding',
  'two-years': 'two-holding',
  'six-years': 'six-holding',
  'twenty-years': 'twenty-holding',
  'pair-undyed': 'pair-holding',
  'pair-dyed': 'pair-holding',
  'small-pupil': 'small-pupil-holding',
  'off-centre-lens': 'off-centre-holding',
  'later-implant': 'later-implant-holding',
};

/** Eyes whose whole attempts the checks and the bench play: each fluid and start, child and adult. */
export const PLAYED_WHOLE: readonly string[] = [
  'infant-thick-fluid',
  'infant-thin-fluid',
  'infant-needle',
  'adult-baseline',
];
