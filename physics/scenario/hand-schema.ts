import { z } from 'zod';
import { idSchema, MAX_INCISIONS, titleSchema } from './scenario-schema.ts';

/*
 * A hand may ask for wild things (jump across the eye, move at 1 m/s): that is a way of using the instrument badly,
 * not a bad file. So positions and speeds are only kept finite and of human size; the instrument limits the rest.
 */

export const MAX_SAMPLES = 200_000;

const within = (low: number, high: number) => z.number().min(low).max(high);

const sampleSchema = z.strictObject({
  t_s: within(0, 3600),
  x_mm: within(-100, 100),
  y_mm: within(-100, 100),
  lift_mm: within(0, 3),
  jaws: within(0, 1),
  instrument: z.enum(['forceps', 'needle', 'cannula']),
  incision: z
    .int()
    .min(0)
    .max(MAX_INCISIONS - 1),
});

const trackSchema = z.strictObject({
  $schema: z.string().max(200).optional().describe('For editors; not read.'),
  rimwardHand: z.literal(1),
  kind: z.literal('track'),
  id: idSchema,
  title: titleSchema,
  samples: z.array(sampleSchema).min(1).max(MAX_SAMPLES),
});

const angle = within(-180, 180);

const place = { radius_mm: within(0, 5), clock_h: within(0, 12) };

const guidedSchema = z.strictObject({
  $schema: z.string().max(200).optional().describe('For editors; not read.'),
  rimwardHand: z.literal(1),
  kind: z.literal('guided'),
  id: idSchema,
  title: titleSchema,
  start: z.enum(['flap', 'needle', 'two-nicks']),
  pullAngle_deg: z
    .union([
      angle,
      z
        .array(z.tuple([within(0, 1440), angle]))
        .min(1)
        .max(1000),
    ])
    .describe('A number, or points [arc torn in degrees, value] with rising arc.'),
  speed_mm_per_s: z.number().gt(0).max(1000),
  regraspEvery_deg: within(5, 720),
  graspBehind_mm: within(0, 5),
  graspInside_mm: within(0, 5),
  fold: z.boolean(),
  refillBelow_mmHg: within(0, 80).optional(),
  tremor: z.strictObject({ across_um: within(0, 2000), along_um: within(0, 2000) }).optional(),
  follow: z
    .strictObject({
      diameter_mm: within(1, 9),
      gain_deg_per_mm: within(0, 1000),
      minAngle_deg: angle,
      maxAngle_deg: angle,
    })
    .optional(),
  puncture: z
    .strictObject({ ...place, drawnTo: z.strictObject(place).optional(), wait_s: within(0, 60).optional() })
    .optional()
    .describe('Needle only: where it goes in and is drawn to; absent means a slit drawn out to the line.'),
  rescue: z
    .strictObject({
      refillFirst: z.boolean(),
      backAngle_deg: angle,
      outside_mm: within(0, 5),
      regraspEvery_mm: within(0.05, 10),
    })
    .optional()
    .describe('How a tear that has run outside of the line is brought back before the hand goes on.'),
  nickTurn_mm: within(0.05, 20)
    .optional()
    .describe('Two nicks only: length torn at one nick before the other has its turn.'),
  stopAfter_deg: within(0, 1440).optional().describe('Arc torn from which the hand lets go and only watches.'),
});

/** Version 1 of a hand file. Rules that join several fields are in parse-hand.ts. */
export const handSchema = z
  .discriminatedUnion('kind', [trackSchema, guidedSchema])
  .meta({ title: 'Rimward hand, version 1' });
