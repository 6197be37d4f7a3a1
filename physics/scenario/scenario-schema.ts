import { z } from 'zod';
import { isMetricKey, METRIC_LABELS } from '../opening/metric-labels.ts';

/*
 * The limits below say what a file may hold at all, not what is wise: they keep typing errors and values
 * without physical meaning out. All are ours (assumed) and far wider than anything published for an eye.
 */

/** Kebab-case name of a scenario or hand: it is also its file name and what the command line takes. */
export const idSchema = z
  .string()
  .max(64)
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .describe('Lower-case letters, digits and single hyphens.');

export const titleSchema = z.string().min(1).max(120);

const within = (low: number, high: number) => z.number().min(low).max(high);
const positiveUpTo = (high: number) => z.number().gt(0).max(high);
/** 0 and 12 are the same place; both may be written. */
const clockHour = within(0, 12);

export const MAX_INCISIONS = 8;

const eyeSchema = z.strictObject({
  age_years: within(0, 95),
  stiffnessPreset: z.enum(['uniaxial', 'inflation']).default('uniaxial'),
  dyed: z.boolean().default(false),
  pupilDiameter_mm: within(2, 10),
  opacityDiameter_mm: within(0, 10).default(0),
  lensOffset_mm: z.tuple([within(-2, 2), within(-2, 2)]).default([0, 0]),
  overrides: z
    .strictObject({
      thickness_um: positiveUpTo(100).optional(),
      youngModulus_MPa: positiveUpTo(100).optional(),
      stiffening: positiveUpTo(100).optional(),
      tearResistance_mN: positiveUpTo(1000).optional(),
      lensDiameter_mm: within(4, 12).optional(),
      anteriorRadius_mm: within(3, 40).optional(),
      zonuleFreeDiameter_mm: within(2, 11).optional(),
      zonuleStiffness_mN_per_mm2: positiveUpTo(100).optional(),
      baseTension_mN_per_mm: positiveUpTo(20).optional(),
    })
    .default({}),
  weakZonule: z
    .strictObject({ fromClock_h: clockHour, toClock_h: clockHour, strength: within(0, 1) })
    .optional()
    .describe('Sector of weaker zonule, clockwise from one hour to the other; strength 0 is missing, 1 is whole.'),
});

const chamberSchema = z.strictObject({
  fluid: z.enum(['saline', 'hpmc-2', 'ha-1.0', 'ha-1.4', 'ha-1.8', 'ha-2.3', 'ha-3.0']),
  behindPressure_mmHg: within(0, 80),
  insidePressure_mmHg: within(0, 80),
  fillPressure_mmHg: within(0, 80),
  startFill_share: within(0, 1).optional().describe('How full the chamber is at the start; 1 when absent.'),
});

const startSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('flap'),
    clock_h: clockHour,
    radius_mm: within(0.5, 5),
    arc_deg: within(-330, 330),
    innerRadius_mm: within(0.1, 5),
    outward_mm: within(0, 3)
      .optional()
      .describe('How far outside of the radius the end of the arc lies; 0 when absent.'),
  }),
  z.strictObject({ kind: z.literal('needle'), slitLimit_mm: within(0.05, 3) }),
  z.strictObject({
    kind: z.literal('two-nicks'),
    distance_mm: within(1, 8),
    nick_mm: within(0.05, 2),
    axisClock_h: clockHour,
  }),
]);

const toleranceSchema = z.strictObject({
  metric: z
    .string()
    .refine(isMetricKey)
    .meta({ enum: Object.keys(METRIC_LABELS) }),
  atLeast: within(-1000, 1000).optional(),
  atMost: within(-1000, 1000).optional(),
});

/** Version 1 of a scenario file. Rules that join several fields are in scenario-rules.ts. */
export const scenarioSchema = z
  .strictObject({
    $schema: z.string().max(200).optional().describe('For editors; not read.'),
    rimwardScenario: z.literal(1),
    id: idSchema,
    title: titleSchema,
    brief: z.string().min(1).max(1000),
    eye: eyeSchema,
    chamber: chamberSchema,
    start: startSchema,
    incisions: z
      .array(z.strictObject({ clock_h: clockHour, width_mm: within(0.3, 6) }))
      .min(1)
      .max(MAX_INCISIONS),
    target: z.strictObject({
      diameter_mm: within(2, 9),
      reference: z.enum(['pupil', 'limbus', 'lens']),
      lineDiameter_mm: within(1, 9),
      opticDiameter_mm: within(3, 8),
    }),
    tolerances: z.array(toleranceSchema).max(64),
    aids: z.strictObject({ arrows: z.boolean(), targetCircle: z.boolean(), tipCard: z.boolean() }),
    timeLimit_s: within(1, 3600),
    trial: z.strictObject({ pause: z.boolean() }).optional().describe('Rules of a trial; no pause when absent.'),
    seed: z.int().min(0).max(4294967295),
  })
  .meta({ title: 'Rimward scenario, version 1' });
