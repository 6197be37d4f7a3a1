import { z } from 'zod';
import type { HostMethod, KeptAttempt } from './contract.ts';

/** Largest text in a message, characters: the largest file that may be opened. */
export const LARGEST_TEXT = 20_000_000;

const command = z.strictObject({
  x_mm: z.number(),
  y_mm: z.number(),
  lift_mm: z.number(),
  jaws: z.number().min(0).max(1),
  instrument: z.enum(['forceps', 'needle', 'cannula']),
  incision: z.int().min(0).max(15),
});

/**
 * The outside of a kept attempt. The scenario's inside is checked by the physics' own parser when it is played;
 * here it must only be plain JSON of the right version, so that a newer page's fields are not lost on the way.
 */
export const keptAttempt = z.strictObject({
  rimwardAttempt: z.literal(1),
  scenario: z.looseObject({ rimwardScenario: z.literal(1), id: z.string().regex(/^[a-z0-9-]{1,60}$/) }),
  seed: z.int().min(0),
  modelVersion: z.string().min(1).max(60),
  commands: z.array(command).max(200_000),
  digest: z.string().max(200).nullable(),
});

const scenarioId = z.string().regex(/^[a-z0-9-]{1,64}$/);
/** As inside a kept attempt: plain JSON of the right version, whatever else it holds. */
const ownScenario = z.looseObject({ rimwardScenario: z.literal(1), id: scenarioId });
/** Largest text of the editor's unsaved work, characters: hundreds of drafts. */
const LARGEST_DRAFTS = 2_000_000;

const preferenceKey = z.string().regex(/^[a-z][A-Za-z0-9.]{0,59}$/);
const preferenceValue = z.union([z.string().max(1000), z.number(), z.boolean()]);
export const preferences = z.record(preferenceKey, preferenceValue);

/** A file name without any folder, drive or control character in it. */
const bareName = z
  .string()
  .min(1)
  .max(120)
  .refine((name) => /^[\p{L}\p{N}][\p{L}\p{N} ._-]*$/u.test(name), 'a name of letters, digits, spaces, dots, dashes');

/** What each call may carry. The page is not trusted: a call that does not fit is refused as a whole. */
export const callArguments = {
  hostInfo: z.tuple([]),
  openTextFile: z.tuple([]),
  saveTextFile: z.tuple([bareName, z.string().max(LARGEST_TEXT)]),
  keepAttempt: z.tuple([keptAttempt]),
  loadLastAttempt: z.tuple([]),
  loadPreferences: z.tuple([]),
  savePreference: z.tuple([preferenceKey, preferenceValue]),
  listOwnScenarios: z.tuple([]),
  saveOwnScenario: z.tuple([ownScenario]),
  removeOwnScenario: z.tuple([scenarioId]),
  loadEyeDrafts: z.tuple([]),
  saveEyeDrafts: z.tuple([z.string().max(LARGEST_DRAFTS)]),
} satisfies Record<HostMethod, z.ZodType>;

/** Lines for a person: where, what is wrong. */
export function problemLines(fault: z.ZodError): readonly string[] {
  return fault.issues.slice(0, 20).map((issue) => `${issue.path.join('.') || 'message'}: ${issue.message}`);
}

/** Reads a kept attempt from unknown data; throws ZodError. */
export function asKeptAttempt(data: unknown): KeptAttempt {
  return keptAttempt.parse(data) as unknown as KeptAttempt;
}
