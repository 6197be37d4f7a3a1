/**
 * The moments of an attempt that cost the most. Found in what was recorded of each step (see costly-recorder.ts) and in the
 * attempt's events; nothing is invented, and an attempt that cost nothing has none.
 *
 * Seven kinds, each with its cost in a unit of its own:
 * - `run-out`: from when letting go would already have run until the tear passed the zonule ring. Cost: how far outside the line, mm.
 * - `near-run-out`: the sheet alone bore nearly the whole tear resistance, or more, until it was rescued. Cost: s.
 * - `off-line`: a stretch of tearing, at most one clock hour long, at whose end the tip was farther from the line than at its
 *   start. Distances are taken in the living eye before any cut, as the line is. Cost: the gain in distance, mm.
 * - `held`: tissue held with more than half the tear resistance at the tip and no tearing. Cost: s.
 * - `force`: within one grasp, the peak force above twice what experienced hands use. Cost: the excess, mN.
 * - `side-load`: the shaft pressed on the wound. Cost: fluid that this let out beyond what leaks anyway, % of a filling.
 * - `lost-grip`: jaws that slipped or closed on nothing until tissue was held again. Cost: s.
 *
 * To be ranked, a cost is divided by its yardstick, `MOMENT_YARDSTICKS`; a run-out always comes first.
 */
import type { WorldEvent } from '../world/contract.ts';
import { clockWords } from './clock-words.ts';
import { heldMoments, offLineMoments } from './costly-tearing.ts';

/** One end of a tear that tore during a step. */
export interface TornEnd {
  readonly end: number;
  /** mm in the living eye. */
  readonly length_mm: number;
  /** Distance of the tip from the line before and after, mm; positive outside it. */
  readonly offLineBefore_mm: number;
  readonly offLineAfter_mm: number;
  /** Clock hour of the tip about the target's centre, after. */
  readonly clock_h: number;
}

/** What one step tells about what it cost. All numbers finite. */
export interface MomentSample {
  /** Time at the end of the step, s, rising. */
  readonly time_s: number;
  readonly torn: readonly TornEnd[];
  /** Forceps force along and across the tear where it tore, mN; both 0 without a pull. */
  readonly shear_mN: number;
  readonly stretch_mN: number;
  /** Largest driving force over tear resistance of all live tips. */
  readonly drivingRatio: number;
  readonly gripping: boolean;
  /** Size of the force on the instrument, mN. */
  readonly force_mN: number;
  readonly sideLoad_mN: number;
  /** Fluid let out in this step by the side load alone, share of a filling. */
  readonly lostByLoad_share: number;
}

export type MomentKind = 'run-out' | 'near-run-out' | 'off-line' | 'held' | 'force' | 'side-load' | 'lost-grip';

export interface CostlyMoment {
  readonly kind: MomentKind;
  readonly from_s: number;
  readonly to_s: number;
  /** Where on the clock face it ended, when it has a place. */
  readonly clock_h: number | null;
  readonly cost: number;
  readonly unit: string;
  /** Cost over its yardstick: what moments are ranked by. */
  readonly weight: number;
  /** What happened, in one plain sentence. */
  readonly sentence: string;
}

/**
 * One yardstick of each kind counts the same. Assumed throughout, within a factor of two either way: 0.1 mm off the line is what a
 * person sees at once; a second next to a run-out, two of idle tension or of groping, 5 % of the fluid; 9 mN is one expert's whole
 * force. A run-out's is so small that it comes first.
 */
export const MOMENT_YARDSTICKS: Readonly<Record<MomentKind, number>> = {
  'run-out': 1e-3,
  'near-run-out': 1,
  'off-line': 0.1,
  held: 2,
  force: 9,
  'side-load': 5,
  'lost-grip': 2,
};

/**
 * Twice the RMS force of an expert in human lenses, 9.04 mN (a study with force-sensing forceps, see references.md); that twice is
 * much is assumed, 1.5 to 3 times.
 */
export const MUCH_FORCE_mN = 18;
/** Pauses shorter than this do not end a moment, s. Our choice: the time after which a tear counts as resting. */
export const PAUSE_s = 0.25;
/** A side load below this is a shaft that just turns in its wound, mN. Assumed 1, 0.5 to 3. */
const PRESSING_mN = 1;
/** Less lost fluid than this is not worth a word, % of a filling. Our choice. */
const LEAST_LOST_percent = 0.5;

/** A moment before it is weighed. */
export type FoundMoment = Omit<CostlyMoment, 'weight'>;

/**
 * The moments that cost the most, the worst first.
 *
 * @param samples one per step, in order
 * @param events of the attempt, in order
 * @param most how many at most
 */
export function costlyMoments(
  samples: readonly MomentSample[],
  events: readonly WorldEvent[],
  most = 5,
): readonly CostlyMoment[] {
  const end_s = samples.at(-1)?.time_s ?? 0;
  const runOut = runOutMoments(samples, events);
  const within = ({ from_s, to_s }: FoundMoment) => runOut.some((out) => to_s > out.from_s && from_s < out.to_s);
  const others = [
    ...nearRunOutMoments(events, end_s),
    ...offLineMoments(samples),
    ...heldMoments(samples),
    ...forceMoments(samples),
    ...sideLoadMoments(samples),
    ...lostGripMoments(events, end_s),
  ];
  // What led into the run-out is told by the run-out itself.
  const apart = others.filter((one) => !(within(one) && (one.kind === 'near-run-out' || one.kind === 'off-line')));
  return [...runOut, ...apart]
    .map((one) => ({ ...one, weight: one.cost / MOMENT_YARDSTICKS[one.kind] }))
    .sort((a, b) => b.weight - a.weight || a.from_s - b.from_s)
    .slice(0, most);
}

function runOutMoments(samples: readonly MomentSample[], events: readonly WorldEvent[]): FoundMoment[] {
  const out = events.findLast(({ kind }) => kind === 'run-out');
  if (out === undefined) return [];
  const before = (kind: WorldEvent['kind']) => events.findLast((one) => one.kind === kind && one.time_s <= out.time_s);
  const from = before('run-out-inevitable') ?? before('tear-starts') ?? out;
  const torn = samples.flatMap((sample) => (sample.time_s <= out.time_s + 1e-9 ? sample.torn : [])).at(-1);
  const outside_mm = Math.max(0, torn?.offLineAfter_mm ?? 0);
  const sure =
    from.kind === 'run-out-inevitable' ? ` From ${from.time_s.toFixed(1)} s on, letting go would have run.` : '';
  return [
    {
      kind: 'run-out',
      from_s: from.time_s,
      to_s: out.time_s,
      clock_h: out.clock_h,
      cost: outside_mm,
      unit: 'mm outside the line',
      sentence: `The tear ran out to the zonule ring${at(out.clock_h)}, ${outside_mm.toFixed(2)} mm outside the line; the opening was lost.${sure}`,
    },
  ];
}

const at = (clock_h: number | null): string => (clock_h === null ? '' : ` at ${clockWords(clock_h)}`);

function nearRunOutMoments(events: readonly WorldEvent[], end_s: number): FoundMoment[] {
  const found: FoundMoment[] = [];
  let from: WorldEvent | null = null;
  const close = (until_s: number, how: string) => {
    if (from === null) return;
    const cost = until_s - from.time_s;
    const sentence = `The sheet alone came close to tearing on${at(from.clock_h)} for ${cost.toFixed(1)} s, ${how}.`;
    const { time_s: from_s, clock_h } = from;
    if (cost > 0) found.push({ kind: 'near-run-out', from_s, to_s: until_s, clock_h, cost, unit: 's', sentence });
    from = null;
  };
  for (const event of events) {
    if (event.kind === 'near-run-out' || event.kind === 'run-out-inevitable') from ??= event;
    else if (event.kind === 'rescued') close(event.time_s, 'then it was rescued');
    else if (event.kind === 'run-out') close(event.time_s, 'then it ran out');
    else if (event.kind === 'disc-free') close(event.time_s, 'until the disc came free');
  }
  close(end_s, 'until the attempt ended');
  return found;
}

function forceMoments(samples: readonly MomentSample[]): FoundMoment[] {
  return stretches(samples, (sample) => sample.gripping, 0).flatMap((held) => {
    const peak = held.reduce((most, sample) => (sample.force_mN > most.force_mN ? sample : most));
    const cost = peak.force_mN - MUCH_FORCE_mN;
    if (!(cost > 0)) return [];
    const sentence = `The pull rose to ${peak.force_mN.toFixed(0)} mN, ${cost.toFixed(0)} mN above twice what experienced hands use.`;
    return [
      { kind: 'force', from_s: peak.time_s, to_s: peak.time_s, clock_h: null, cost, unit: 'mN too much', sentence },
    ];
  });
}

function sideLoadMoments(samples: readonly MomentSample[]): FoundMoment[] {
  return stretches(samples, (sample) => sample.sideLoad_mN > PRESSING_mN, PAUSE_s).flatMap((pressed) => {
    const cost = 100 * pressed.reduce((sum, sample) => sum + sample.lostByLoad_share, 0);
    if (!(cost > LEAST_LOST_percent)) return [];
    const peak_mN = Math.max(...pressed.map((sample) => sample.sideLoad_mN));
    const sentence = `The shaft pressed on the wound with up to ${peak_mN.toFixed(0)} mN and let out ${cost.toFixed(1)} % of a filling more than leaks anyway.`;
    const [from_s, to_s] = [pressed[0].time_s, pressed[pressed.length - 1].time_s];
    return [{ kind: 'side-load', from_s, to_s, clock_h: null, cost, unit: '% of the fluid', sentence }];
  });
}

function lostGripMoments(events: readonly WorldEvent[], end_s: number): FoundMoment[] {
  const found: FoundMoment[] = [];
  let from: WorldEvent | null = null;
  const close = (to_s: number, how: string) => {
    if (from === null) return;
    const cost = to_s - from.time_s;
    const what = from.kind === 'slipped' ? 'The tissue slipped out of the jaws' : 'The jaws closed on nothing';
    const sentence = `${what}${at(from.clock_h)}; ${how} ${cost.toFixed(1)} s later.`;
    const { time_s: from_s, clock_h } = from;
    if (cost > 0) found.push({ kind: 'lost-grip', from_s, to_s, clock_h, cost, unit: 's', sentence });
    from = null;
  };
  for (const event of events) {
    if (event.kind === 'slipped' || event.kind === 'grasp-missed') from ??= event;
    else if (event.kind === 'grasp') close(event.time_s, 'tissue was held again');
  }
  close(end_s, 'the attempt ended');
  return found;
}

/** Runs of samples that are so, bridged over pauses of at most `pause_s`; the pause itself is left out. */
function stretches(
  samples: readonly MomentSample[],
  isSo: (sample: MomentSample) => boolean,
  pause_s: number,
): readonly (readonly MomentSample[])[] {
  const runs: MomentSample[][] = [];
  let previous: MomentSample | null = null;
  for (const sample of samples) {
    if (isSo(sample)) {
      const run = runs.at(-1);
      const last = run?.at(-1);
      const joins = last !== undefined && (last === previous || sample.time_s - last.time_s <= pause_s);
      if (run !== undefined && joins) run.push(sample);
      else runs.push([sample]);
    }
    previous = sample;
  }
  return runs;
}
