import { z } from 'zod';

/** What the outside of an attempt must look like when it comes from the page or from a bundle. Bounds keep memory in hand. */

/** One per world step: 200,000 is 55 minutes. */
export const MOST_COMMANDS = 200_000;
const MOST_POINTS = 50_000;

export const command = z.strictObject({
  x_mm: z.number(),
  y_mm: z.number(),
  lift_mm: z.number(),
  jaws: z.number().min(0).max(1),
  instrument: z.enum(['forceps', 'needle', 'cannula']),
  incision: z.int().min(0).max(15),
});

/**
 * The outside of a scenario. Its inside is checked by the physics' own parser where it is taken in;
 * here it must only be plain JSON of the right version, so that a newer page's fields are not lost on the way.
 */
export const scenario = z.looseObject({
  rimwardScenario: z.literal(1),
  id: z.string().regex(/^[a-z0-9-]{1,64}$/),
  title: z.string().max(500),
});

export const seed = z.int().min(0);
export const modelVersion = z.string().min(1).max(60);
export const digest = z.string().min(1).max(200);
export const place = z.enum(['bench', 'trial']);

const numbers = <const K extends string>(keys: readonly K[]) =>
  Object.fromEntries(keys.map((key) => [key, z.number()])) as Record<K, z.ZodNumber>;

const point = z.tuple([z.number(), z.number()]);
const points = z.array(point).max(MOST_POINTS);

/** Metrics a newer program adds are kept; those known here must be numbers. */
export const opening = z.looseObject({
  ...numbers([
    'equivalentDiameter_mm',
    'largestDiameter_mm',
    'largestDiameterAxis_deg',
    'smallestDiameter_mm',
    'smallestDiameterAxis_deg',
    'area_mm2',
    'perimeter_mm',
    'centroidDistance_mm',
    'centroidDirection_clock_h',
    'circularity',
    'axisRatio',
    'rmsDeviation_mm',
    'peakDeviation_mm',
    'opticOverlapSmallest_mm',
    'largestKink_deg',
    'radialNicks',
    'longestNick_mm',
  ]),
  opticUncovered_clock_h: z.array(point).max(1000),
});

export const work = z.looseObject(
  numbers([
    'time_s',
    'grasps',
    'arcPerGrasp_deg',
    'tornLength_mm',
    'gripToTipMean_mm',
    'peakForce_mN',
    'rmsForce_mN',
    'handPath_mm',
    'handPathOverTorn',
    'shearShare',
    'stretchShare',
    'tensionWithoutTear_s',
    'refills',
    'fluidLost_share',
    'peakSideLoad_mN',
    'nearRunOuts',
    'rescues',
  ]),
);

export const graded = z
  .array(
    z.looseObject({
      metric: z.string().max(100),
      value: z.number().nullable(),
      atLeast: z.number().optional(),
      atMost: z.number().optional(),
      met: z.boolean(),
      reason: z.string().max(2000),
    }),
  )
  .max(200);

const event = z.looseObject({
  step: z.int().min(0),
  time_s: z.number(),
  kind: z.string().max(60),
  clock_h: z.number().nullable(),
});

export const ended = z.enum(['complete', 'run-out', 'open', 'stalled']);

/** An `AttemptResult` of the physics; its type is theirs, this is only the check. */
export const result = z.looseObject({
  scenario: z.string().max(64),
  hand: z.string().max(200),
  seed,
  modelVersion,
  ended,
  opening: opening.nullable(),
  work,
  graded,
  passed: z.boolean(),
  tears: z.array(z.looseObject({ reference_mm: points, relaxed_mm: points })).max(200),
  outline_mm: points.nullable(),
  events: z.array(event).max(200_000),
  steps: z.int().min(0).max(MOST_COMMANDS),
  digest,
  energyMismatch: z.number(),
  caution: z.string().max(1000),
});
