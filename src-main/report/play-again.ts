/** Plays a stored attempt again, and compares what comes of it with what was stored. */
import { setImmediate } from 'node:timers/promises';
import {
  type AttemptResult,
  attemptResult,
  type CostlyMoment,
  costlyMoments,
  createMomentRecorder,
  createWorld,
  type HandCommand,
  MODEL_VERSION,
  type Scenario,
  stepWorld,
} from '../../physics/index.ts';

/** What is needed to play an attempt again. The scenario and the commands have been checked. */
export interface PlayableAttempt {
  readonly scenario: Scenario;
  readonly seed: number;
  /** One per world step, in order. */
  readonly commands: readonly HandCommand[];
  /** Name of the hand, as the result carries it. */
  readonly hand: string;
}

export interface PlayedAgain {
  readonly result: AttemptResult;
  readonly moments: readonly CostlyMoment[];
}

/** Steps between two moments in which the rest of the program gets its turn. */
const TURN_EVERY = 10;

/**
 * Plays the commands from the start to their end, or to the end of the attempt if that comes first. Takes about as long as the
 * computer needs for the attempt itself, seconds to a minute, and lets other work in between.
 *
 * @param onProgress called with a share of 0 to 1
 */
export async function playAgain(
  { scenario, seed, commands, hand }: PlayableAttempt,
  onProgress?: (share: number) => void,
): Promise<PlayedAgain> {
  const world = createWorld(scenario, seed);
  const recorder = createMomentRecorder(world);
  for (const command of commands) {
    if (world.phase === 'ended') break;
    stepWorld(world, command);
    recorder.record();
    if (world.step % TURN_EVERY !== 0) continue;
    onProgress?.(world.step / commands.length);
    await setImmediate();
  }
  onProgress?.(1);
  const result = attemptResult(world, hand);
  return { result, moments: costlyMoments(recorder.samples, result.events) };
}

/** The first place at which two results part, with what stands there, shortened to fit a line. */
export interface FirstDifference {
  readonly path: string;
  readonly stored: string;
  readonly replayed: string;
}

/** What is compared, in this order: what a person would ask first comes first. */
const ORDER: readonly (keyof AttemptResult)[] = [
  'modelVersion',
  'scenario',
  'seed',
  'steps',
  'ended',
  'digest',
  'opening',
  'work',
  'graded',
  'passed',
  'events',
  'outline_mm',
  'tears',
  'energyMismatch',
  'hand',
  'caution',
];

const shown = (value: unknown): string => {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
};

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function firstPart(stored: unknown, replayed: unknown, path: string): FirstDifference | null {
  if (Array.isArray(stored) && Array.isArray(replayed)) {
    for (let k = 0; k < Math.max(stored.length, replayed.length); k++) {
      const found = firstPart(stored[k], replayed[k], `${path}[${k}]`);
      if (found !== null) return found;
    }
    return null;
  }
  if (isObject(stored) && isObject(replayed)) {
    for (const key of new Set([...Object.keys(replayed), ...Object.keys(stored)])) {
      const found = firstPart(stored[key], replayed[key], path === '' ? key : `${path}.${key}`);
      if (found !== null) return found;
    }
    return null;
  }
  return stored === replayed ? null : { path, stored: shown(stored), replayed: shown(replayed) };
}

/** Where a result and the one that playing again gave part; null when every value is the same to the last bit. */
export function firstDifference(stored: AttemptResult, replayed: AttemptResult): FirstDifference | null {
  // As it would be read from a file, so that what a file cannot tell apart is not told apart here.
  const plain = JSON.parse(JSON.stringify(replayed)) as AttemptResult;
  for (const key of ORDER) {
    const found = firstPart(stored[key], plain[key], key);
    if (found !== null) return found;
  }
  return firstPart(stored, plain, '');
}

/** Commands that were stored and never played because the attempt had ended, as a difference; null when there are none. */
export function leftOver(commands: number, { steps }: AttemptResult): FirstDifference | null {
  if (commands === steps) return null;
  return { path: 'commands', stored: `${commands} commands`, replayed: `ended after ${steps} steps` };
}

/** The model that plays now; an attempt of another one may play to another opening. */
export const PRESENT_MODEL = MODEL_VERSION;
