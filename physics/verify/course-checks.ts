/** Checks of eyes in use: C4, C5, C8, C9. Whole attempts and sweeps, so none is quick. */
import { runHand } from '../scenario/attempt.ts';
import { enlargementOf } from '../sweep/enlargement.ts';
import { holdAngleOf } from '../sweep/hold-angle.ts';
import type { SampleOptions } from '../sweep/sample-eye.ts';
import { createWorld } from '../world/world.ts';
import type { Check, CheckContext, Finding, KnownMiss } from './check.ts';
import { absolute, OF_ITS_SIGN, relative } from './compare.ts';

const USUAL: SampleOptions = { preset: 'uniaxial', dyed: false };

/** Ages in years with the enlargement measured there: the line of 13 eyes to 8 years, adults from 40. */
const ENLARGED: readonly (readonly [number, number])[] = [
  ...[0.5, 2, 4, 6, 8].map((age) => [age, 1.27 - 0.014 * age] as const),
  [40, 1.06],
  [60, 1.06],
];
/** Ages that stand for 28 eyes of 2 to 6 years, and their mean. */
const EARLY_CHILDHOOD_years: readonly number[] = [2, 4, 6];
const EARLY_CHILDHOOD = 1.211;
const ENLARGED_TOLERANCE = 0.04;

function enlargements(): readonly Finding[] {
  const computed = new Map(ENLARGED.map(([age]) => [age, enlargementOf(age, 0, USUAL).enlargement]));
  const finding = (when: string, value: number, measured: number): Finding => ({
    quantity: `enlargement of a circle cut along the usual line, ${when}`,
    computed: value,
    reference: measured,
    unit: '1',
    tolerance: absolute(ENLARGED_TOLERANCE),
    note: 'the base tension is fitted to these by the axisymmetric answer; here the whole two-dimensional model cuts',
  });
  const early = EARLY_CHILDHOOD_years.reduce((sum, age) => sum + computed.get(age)!, 0) / EARLY_CHILDHOOD_years.length;
  return [
    ...ENLARGED.map(([age, measured]) => finding(`${age} years`, computed.get(age)!, measured)),
    finding(`mean of ${EARLY_CHILDHOOD_years.join(', ')} years`, early, EARLY_CHILDHOOD),
  ];
}

/** Middle and half width of the range allowed about the 9 mN measured: 3 to 25 mN. */
const FORCE_mN = { middle: 14, half: 11 } as const;

const forces = ({ attempts }: CheckContext): readonly Finding[] =>
  attempts
    .filter(({ scenario }) => scenario.start.kind === 'flap')
    .map(({ scenario, hand }): Finding => {
      const { ended, work } = runHand(scenario, hand);
      if (ended !== 'complete') throw new Error(`${hand.id} in ${scenario.id} ended ${ended}`);
      return {
        quantity: `RMS of the forceps force while tissue is held, ${scenario.id} with ${hand.id}`,
        computed: work.rmsForce_mN,
        reference: FORCE_mN.middle,
        unit: 'mN',
        tolerance: absolute(FORCE_mN.half),
        note: 'measured: 8.97 mN in pig and rabbit, 9.04 mN in a human lens; the reference is the middle of 3 to 25 mN',
      };
    });

/** Child and adult of the published pair, years; net pressure at which they are compared, mmHg (assumed, 0 to 4). */
const TURNED = { child_years: 10, adult_years: 60, netPressure_mmHg: 2 } as const;
/** 85 degrees at 10 years, 10 above 50. What is checked is the sign. */
const PUBLISHED_FALL_deg = 85 - 10;

function angles(): readonly Finding[] {
  const at = (age: number) => holdAngleOf(age, TURNED.netPressure_mmHg, USUAL).holdAngle_deg ?? Number.NaN;
  const [child, adult] = [at(TURNED.child_years), at(TURNED.adult_years)];
  return [
    {
      quantity: `pull angle that holds the circle, ${TURNED.child_years} years less ${TURNED.adult_years} years`,
      computed: child - adult,
      reference: PUBLISHED_FALL_deg,
      unit: 'deg',
      tolerance: OF_ITS_SIGN,
      note:
        `${child.toFixed(0)} and ${adult.toFixed(0)} deg at ${TURNED.netPressure_mmHg} mmHg, published 85 and 10; the published angle ` +
        'is not defined in its source, so only its fall with age is judged',
    },
  ];
}

/** How far the height of what was torn may be from the distance of the nicks. */
const HEIGHT_SHARE = 0.1;

const RELAXED: KnownMiss = {
  size: 0.24,
  reason:
    'Nicks that far apart in the tense capsule give an opening larger by what any opening enlarges, 1.23 here, 1.26 measured in ' +
    'laser-cut openings at that age. The published pair, nicks 4 to 5 mm apart and openings of 4 to 4.5 mm, leaves no room for that.',
};

function nicks({ twoNicks }: CheckContext): readonly Finding[] {
  if (twoNicks === null || twoNicks.scenario.start.kind !== 'two-nicks')
    throw new Error('no eye with two nicks was given');
  const { scenario, hand } = twoNicks;
  const { ended, tears, outline_mm } = runHand(scenario, hand);
  if (ended !== 'complete' || outline_mm === null) throw new Error(`${hand.id} in ${scenario.id} ended ${ended}`);
  const { baseStretch } = createWorld(scenario).frame;
  const heights = tears.flatMap(({ reference_mm }) => reference_mm.map(([, y]) => y * baseStretch));
  const start = twoNicks.scenario.start;
  const relaxed = outline_mm.map(([, y]) => y);
  return [
    {
      quantity: 'height of the line torn from two nicks, in the living eye',
      computed: Math.max(...heights) - Math.min(...heights),
      reference: start.distance_mm,
      unit: 'mm',
      tolerance: relative(HEIGHT_SHARE),
      note: 'the nicks themselves are its ends: larger only where a tear bulges past them, smaller where it closes short of one',
    },
    {
      quantity: 'height of the relaxed opening torn from two nicks',
      computed: Math.max(...relaxed) - Math.min(...relaxed),
      reference: start.distance_mm,
      unit: 'mm',
      tolerance: relative(HEIGHT_SHARE),
      note: '84 eyes were opened so, to 4 to 4.5 mm, and none was lost while forming',
      knownMiss: RELAXED,
    },
  ];
}

export const courseChecks: readonly Check[] = [
  {
    name: 'C4',
    problem: 'enlargement of a finished opening by age',
    source:
      '1.27 - 0.014 age (preprint 202502.1108, 13 eyes); 1.211 +- 0.039 (BMC Ophthalmol 2021, 28 eyes, 2 to 6 years); ' +
      '1.058 (Tan and Yuan 2025, 47 adult eyes)',
    first: false,
    quick: false,
    run: enlargements,
  },
  {
    name: 'C5',
    problem: 'forceps force of a practised hand',
    source: 'force-sensing forceps: about 9 mN RMS (animal and human lens)',
    first: false,
    quick: false,
    run: forces,
  },
  {
    name: 'C8',
    problem: 'pull angle against age',
    source: 'Rajabi 2009: 85 degrees at 10 years, 10 above 50; the angle is not defined there',
    first: false,
    quick: false,
    run: angles,
  },
  {
    name: 'C9',
    problem: 'two nicks 4 to 5 mm apart',
    source: 'Ophthalmology 2006;113:1309 (84 eyes)',
    first: false,
    quick: false,
    run: nicks,
  },
];
