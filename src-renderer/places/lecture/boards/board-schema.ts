import { z } from 'zod';
import { FLUID_IDS } from '../../../../physics/index.ts';
import type { LectureAids } from '../contract.ts';

/*
 * How much a file may hold. Texts are for a screen read from the back of a room, so their limits are short; all are ours.
 * Scenarios and hands inside a board go through their own checks (parse-boards.ts).
 */

export const MAX_BOARDS = 60;
/** A file of boards with some recorded hands in it, characters. */
export const MAX_BOARD_FILE_CHARACTERS = 5_000_000;

const within = (low: number, high: number) => z.number().min(low).max(high);
const line = (most: number) => z.string().trim().min(1).max(most);

/** In the order in which they are offered. */
export const AIDS = [
  'arrows',
  'safeCone',
  'tensionMap',
  'principalStrokes',
  'polarCurve',
  'targetCircle',
  'numbers',
] as const satisfies readonly (keyof LectureAids)[];

const side = z.strictObject({
  label: line(60),
  change: z
    .strictObject({
      age_years: within(0, 95).optional(),
      behindPressure_mmHg: within(0, 80).optional(),
      fluid: z.enum(FLUID_IDS).optional(),
      dyed: z.boolean().optional(),
    })
    .default({}),
});

const question = z.strictObject({
  ask: line(300),
  answers: z.array(line(120)).min(2).max(6),
  reveal: line(2000),
  holdAt: z.union([z.literal('start'), z.strictObject({ torn_deg: z.number().gt(0).max(720) })]),
  revealAids: z.array(z.enum(AIDS)).min(1).max(AIDS.length).optional(),
});

const board = z.strictObject({
  id: z
    .string()
    .max(64)
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  title: line(120),
  text: line(4000),
  toDo: line(600).optional(),
  toWatch: line(600).optional(),
  scenario: z.unknown(),
  left: side,
  right: side.nullable(),
  hand: z.unknown(),
  seed: z.int().min(0).max(4294967295).default(1),
  // a record of an enum asks for every key and takes no other
  aids: z.record(z.enum(AIDS), z.boolean()),
  camera: z.strictObject({ magnification: within(0.5, 8) }),
  speed: within(0.1, 1).default(1),
  stopAt_s: z.number().gt(0).max(600).optional(),
  loop_s: z.tuple([within(0, 600), within(0, 600)]).optional(),
  question: question.optional(),
  hidden: z.literal(true).optional(),
});

/** Version 1 of a file of boards. Rules that join several fields or look into the texts are in parse-boards.ts. */
export const boardFileSchema = z.strictObject({
  $schema: z.string().max(200).optional(),
  rimwardBoards: z.literal(1),
  title: line(120),
  boards: z.array(board).min(1).max(MAX_BOARDS),
});
