/** The two kinds of costly moments that are found in the tearing itself; see costly-moments.ts. */
import { clockWords } from './clock-words.ts';
import type { FoundMoment, MomentSample, TornEnd } from './costly-moments.ts';

/** A tear that does not advance for this long rests, s. Our choice, that of the world's own events. */
const REST_s = 0.25;
/** A stretch is cut here, so that a whole round in one go still has its moments. */
const LONGEST_CLOCK_h = 1;
/** Less than this nobody sees, mm. Our choice. */
const LEAST_GAIN_mm = 0.02;
/** Share of the tear resistance from which a held pull counts as tension; that of the metrics of the work (assumed). */
const TENSION_RATIO = 0.5;
/** A shorter wait is no moment, s. Our choice. */
const LEAST_HELD_s = 0.5;

interface Stretch {
  readonly from_s: number;
  readonly first: TornEnd;
  readonly startClock_h: number;
  last: TornEnd;
  to_s: number;
  along_mm: number;
  across_mm: number;
  free_mm: number;
}

/** Difference of two clock hours, 0 to 6. */
function apart_h(a: number, b: number): number {
  const turn = Math.abs(a - b) % 12;
  return Math.min(turn, 12 - turn);
}

const startOf = (sample: MomentSample, torn: TornEnd): Stretch => ({
  from_s: sample.time_s,
  first: torn,
  startClock_h: torn.clock_h,
  last: torn,
  to_s: sample.time_s,
  along_mm: 0,
  across_mm: 0,
  free_mm: 0,
});

/** Stretches of tearing that ended farther from the line than they began. */
export function offLineMoments(samples: readonly MomentSample[]): FoundMoment[] {
  const found: FoundMoment[] = [];
  const open = new Map<number, Stretch>();
  const close = (end: number) => {
    const stretch = open.get(end);
    open.delete(end);
    const moment = stretch && offLineMoment(stretch);
    if (moment) found.push(moment);
  };
  for (const sample of samples) {
    for (const torn of sample.torn) {
      const running = open.get(torn.end);
      const goesOn =
        running !== undefined &&
        sample.time_s - running.to_s <= REST_s &&
        apart_h(running.startClock_h, torn.clock_h) <= LONGEST_CLOCK_h;
      if (!goesOn) close(torn.end);
      const stretch = goesOn ? running : startOf(sample, torn);
      open.set(torn.end, stretch);
      stretch.last = torn;
      stretch.to_s = sample.time_s;
      stretch[wayOf(sample)] += torn.length_mm;
    }
  }
  for (const end of [...open.keys()]) close(end);
  return found;
}

/** Whether it tore mostly along the pull, across it, or without one; as the metrics of the work do. */
function wayOf({ shear_mN, stretch_mN }: MomentSample): 'along_mm' | 'across_mm' | 'free_mm' {
  if (shear_mN === 0 && stretch_mN === 0) return 'free_mm';
  return Math.abs(shear_mN) >= Math.abs(stretch_mN) ? 'along_mm' : 'across_mm';
}

function offLineMoment(stretch: Stretch): FoundMoment | null {
  const { first, last } = stretch;
  const cost = Math.abs(last.offLineAfter_mm) - Math.abs(first.offLineBefore_mm);
  if (!(cost > LEAST_GAIN_mm)) return null;
  const side = last.offLineAfter_mm > 0 ? 'outside' : 'inside';
  const [a, b] = [clockWords(stretch.startClock_h), clockWords(last.clock_h)];
  const where = a === b ? `at ${a}` : `from ${a} to ${b}`;
  const sentence = `The tear went ${cost.toFixed(2)} mm farther ${side} the line ${where}, ${pullWords(stretch)}.`;
  const { from_s, to_s } = stretch;
  return { kind: 'off-line', from_s, to_s, clock_h: last.clock_h, cost, unit: 'mm off the line', sentence };
}

function pullWords({ along_mm, across_mm, free_mm }: Stretch): string {
  if (free_mm >= along_mm + across_mm) return 'with nothing held';
  return along_mm >= across_mm ? 'with a pull mostly along the tear' : 'with a pull mostly across the tear';
}

/** Waits with tissue held tense and no tearing. A wait starts when the last advance is over. */
export function heldMoments(samples: readonly MomentSample[]): FoundMoment[] {
  const found: FoundMoment[] = [];
  let from_s: number | null = null;
  let to_s = 0;
  const close = () => {
    const cost = from_s === null ? 0 : to_s - from_s;
    if (from_s !== null && cost > LEAST_HELD_s) {
      const sentence = `The tip was held with more than half its tear resistance for ${cost.toFixed(1)} s without tearing.`;
      found.push({ kind: 'held', from_s, to_s, clock_h: null, cost, unit: 's', sentence });
    }
    from_s = null;
  };
  let before_s = 0;
  for (const sample of samples) {
    if (sample.gripping && sample.drivingRatio > TENSION_RATIO && sample.torn.length === 0) {
      from_s ??= before_s;
      to_s = sample.time_s;
    } else close();
    before_s = sample.time_s;
  }
  close();
  return found;
}
