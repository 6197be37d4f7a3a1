/** What comes of an attempt, and playing a stored hand to its end. */
import { gradeAttempt } from '../opening/grade-attempt.ts';
import { measureOpening } from '../opening/measure-opening.ts';
import type { OpeningMetrics } from '../opening/metrics.ts';
import { type AttemptResult, TEACHING_CAUTION } from '../world/attempt-result.ts';
import { type Ended, type HandCommand, STEP_S, type WorldView } from '../world/contract.ts';
import { digestWorld } from '../world/digest.ts';
import { energyMismatch } from '../world/energy.ts';
import { faceRun, outerFaces } from '../world/margins.ts';
import { openingOutline } from '../world/opening-outline.ts';
import type { World } from '../world/state.ts';
import { viewWorld } from '../world/view.ts';
import { createWorld, stepWorld, type WorldOptions } from '../world/world.ts';
import { guide } from './guided.ts';
import { createGuided } from './guided-state.ts';
import type { Hand } from './hand.ts';
import type { Scenario } from './scenario.ts';
import { trackCommand } from './track.ts';

/** Changes whenever the same commands would give another opening. */
export const MODEL_VERSION = '3';

type Point = readonly [number, number];

/** The result up to now: the same object for the window, the command line and the store. */
export function attemptResult(world: World, handId: string): AttemptResult {
  const ended: Ended = world.ended ?? (world.stalled ? 'stalled' : 'open');
  const outline = ended === 'complete' ? openingOutline(world) : null;
  const opening = outline ? measured(world, outline) : null;
  const work = world.recorder.result();
  const graded = gradeAttempt(world.scenario.tolerances, opening, work);
  return {
    scenario: world.scenario.id,
    hand: handId,
    seed: world.seed,
    modelVersion: MODEL_VERSION,
    ended,
    opening,
    work,
    graded,
    passed: ended === 'complete' && graded.every((item) => item.met),
    tears: world.tears.map((tear, index) => ({
      reference_mm: pairs(tear.points),
      relaxed_mm: Array.from(
        faceRun(outerFaces(world, index)),
        (node): Point => [world.x[node * 3], world.x[node * 3 + 1]],
      ),
    })),
    outline_mm: outline,
    events: world.events.slice(),
    steps: world.step,
    digest: digestWorld(world),
    energyMismatch: world.account.mismatch >= 0 ? world.account.mismatch : energyMismatch(world),
    caution: TEACHING_CAUTION,
  };
}

function measured(world: World, outline: readonly Point[]): OpeningMetrics | null {
  const { target } = world.scenario;
  const { targetCentre_mm } = world.frame;
  const result = measureOpening(outline, {
    targetCentre_mm,
    targetDiameter_mm: target.diameter_mm,
    opticCentre_mm: targetCentre_mm,
    opticDiameter_mm: target.opticDiameter_mm,
  });
  return result.ok ? result.value : null;
}

function pairs(points: readonly number[]): Point[] {
  const out: Point[] = [];
  for (let k = 0; k < points.length; k += 2) out.push([points[k], points[k + 1]]);
  return out;
}

export interface RunOptions extends WorldOptions {
  readonly seed?: number;
  /** Called with the world before its first step: what a study changes of it is not kept with an attempt. */
  readonly begin?: (world: World) => void;
  /** Called about once per simulated second with a share of 0 to 1. */
  readonly onProgress?: (share: number) => void;
  /** Called with every step's view. */
  readonly onView?: (view: WorldView) => void;
  /** Called with the commands in order, each right before it is played: what a recording keeps. */
  readonly onCommand?: (command: HandCommand) => void;
}

/** Plays a hand in an eye to the end, its own or the time limit's. Same inputs, same digest. */
export function runHand(scenario: Scenario, hand: Hand, options: RunOptions = {}): AttemptResult {
  const world = createWorld(scenario, options.seed ?? scenario.seed, options);
  options.begin?.(world);
  const next = handPlayer(world, hand);
  let view = viewWorld(world);
  const most = Math.ceil(scenario.timeLimit_s / STEP_S);
  while (world.phase !== 'ended') {
    const command = next(view);
    if (command === null) break;
    options.onCommand?.(command);
    stepWorld(world, command);
    view = viewWorld(world);
    options.onView?.(view);
    if (world.step % 60 === 0) options.onProgress?.(Math.min(1, world.step / most));
  }
  options.onProgress?.(1);
  return attemptResult(world, hand.id);
}

/** Gives the hand's command for the step after a view; null when the hand has nothing more to do. */
export function handPlayer(world: World, hand: Hand): (view: WorldView) => HandCommand | null {
  if (hand.kind === 'track') {
    const last = hand.samples[hand.samples.length - 1].t_s + AFTER_TRACK_s;
    return (view) => (view.time_s > last ? null : trackCommand(hand, view.time_s + STEP_S));
  }
  const { targetCentre_mm, geometry } = world.frame;
  const state = createGuided(hand, world.seed, targetCentre_mm, geometry.target.lineDiameter_mm / 2);
  return (view) => guide(state, view);
}

/** A track is held this long after its last sample, so that an opening that is relaxing can end. */
const AFTER_TRACK_s = 2;
