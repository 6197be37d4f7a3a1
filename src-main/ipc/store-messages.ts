import { z } from 'zod';
import { command, digest, modelVersion, place, result, scenario, seed } from './attempt-schema.ts';
import { PERSON_COLOURS, type StoreHost } from './store-contract.ts';

const id = z.uuid();
/** Something to read on one line. */
const name = z
  .string()
  .min(1)
  .max(80)
  .refine((text) => text.trim() === text && !/\p{Cc}/u.test(text), 'a name on one line, without spaces at its ends');

export const person = z.strictObject({ id, name, colour: z.enum(PERSON_COLOURS) });
const classGroup = z.strictObject({ id, name, memberIds: z.array(id).max(500) });

const start = z.strictObject({ personId: id, place, scenario, seed, modelVersion });

const date = z.string().regex(/^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?Z?)?$/, 'an ISO 8601 date');
const filter = z.strictObject({
  personId: id.optional(),
  classId: id.optional(),
  scenarioId: z.string().max(64).optional(),
  place: place.optional(),
  passed: z.boolean().optional(),
  fromBundle: z.string().max(200).optional(),
  since: date.optional(),
  until: date.optional(),
  limit: z.int().min(1).max(100_000).optional(),
});

/** A file name without any folder, drive or control character in it. */
export const bareName = z
  .string()
  .min(1)
  .max(120)
  .refine((text) => /^[\p{L}\p{N}][\p{L}\p{N} ._-]*$/u.test(text), 'a name of letters, digits, spaces, dots, dashes');

const scenarioId = z.string().regex(/^[a-z0-9-]{1,64}$/);

/** Largest photograph that is kept, bytes. */
export const LARGEST_PHOTO_BYTES = 12_000_000;
const coordinate = z.number().min(-100_000).max(100_000);
const places = z.array(z.tuple([coordinate, coordinate]));
const diameter = z.number().min(1).max(12);

/** An opening from outside, in a call and in its file. */
export const outsideOpening = z.strictObject({
  rimwardOutside: z.literal(1),
  name: z.string().min(1).max(200),
  keptAt: z.iso.datetime(),
  outline_mm: places.min(3).max(20_000),
  target_mm: diameter,
  optic_mm: diameter,
  marks: z
    .strictObject({
      ends_px: places.length(2),
      known_mm: z.number().min(1).max(50),
      margin_px: places.min(3).max(20_000),
      centre_px: z.tuple([coordinate, coordinate]).nullable(),
    })
    .nullable(),
});
// a third more characters than bytes, and a few for the last group
const photo = z
  .string()
  .max(Math.ceil(LARGEST_PHOTO_BYTES / 3) * 4, 'a photograph of at most 12 MB')
  .regex(/^[A-Za-z0-9+/]+={0,2}$/, 'base64');

/** What each call of the store may carry. */
export const storeArguments = {
  listPeople: z.tuple([]),
  savePerson: z.tuple([person]),
  removePerson: z.tuple([id]),
  beginAttempt: z.tuple([start]),
  // At most a minute of steps at once: what is appended as it happens is far less.
  appendCommands: z.tuple([id, z.int().min(0), z.array(command).max(3600)]),
  finishAttempt: z.tuple([id, result]),
  removeAttempt: z.tuple([id]),
  unfinishedAttempts: z.tuple([]),
  listAttempts: z.tuple([filter]),
  loadAttempt: z.tuple([id]),
  noteReplay: z.tuple([id, digest]),
  openingShapes: z.tuple([filter]),
  listOutsideOpenings: z.tuple([]),
  keepOutsideOpening: z.tuple([outsideOpening, photo.nullable()]),
  loadOutsideOpening: z.tuple([id]),
  removeOutsideOpening: z.tuple([id]),
  listClasses: z.tuple([]),
  saveClass: z.tuple([classGroup]),
  removeClass: z.tuple([id]),
  exportBundle: z.tuple([bareName, z.array(id).min(1).max(20_000)]),
  importBundle: z.tuple([]),
  backupStore: z.tuple([bareName]),
  restoreStore: z.tuple([]),
  jobProgress: z.tuple([id]),
  cancelJob: z.tuple([id]),
  openAttemptReport: z.tuple([id]),
  openPersonReport: z.tuple([id, scenarioId]),
  saveAttemptReport: z.tuple([id]),
  savePersonReport: z.tuple([id, scenarioId]),
} satisfies Record<keyof StoreHost, z.ZodType>;
