import type { ChamberView, Ended, TipView, Vec2, WorldEvent, WorldEventKind } from '../../physics/index.ts';
import { clockHour, number, quantity } from './format.ts';

const EVENT_WORDS: Readonly<Record<WorldEventKind, string>> = {
  grasp: 'Tissue grasped',
  release: 'Let go',
  'grasp-missed': 'Jaws closed on nothing',
  slipped: 'Tissue slipped out of the jaws',
  puncture: 'Capsule punctured',
  'tear-starts': 'Tear goes',
  'tear-stops': 'Tear rests',
  'near-run-out': 'Near run-out: the sheet alone almost tears it',
  rescued: 'Rescued',
  'run-out-inevitable': 'From here, letting go would already run',
  'run-out': 'Run-out: the tear passed the zonule ring',
  joined: 'Tear met its start',
  'disc-free': 'Disc is free',
  refill: 'Chamber refilled',
  stalled: 'Computation stalled: last good state shown',
  resumed: 'Computation resumed',
  complete: 'Opening complete',
  'time-up': 'Time is up',
};

/** One event in plain words, with the clock hour where it has one. */
export function eventWords(event: WorldEvent): string {
  const words = EVENT_WORDS[event.kind] ?? event.kind;
  return event.clock_h === null ? words : `${words}, ${clockHour(event.clock_h)}`;
}

/** Difference of two directions, degrees, -180 to 180. */
export const turn_deg = (from_deg: number, to_deg: number): number => {
  const turn = (((to_deg - from_deg) % 360) + 540) % 360;
  return turn - 180;
};

/**
 * How far a direction turns from the tear's tangent: positive outward (away from the centre), degrees. Null where the
 * tear runs straight at or from the centre, so that neither side is outward.
 */
export function outwardTurn_deg(tip: TipView, direction_deg: number, centre_mm: Vec2): number | null {
  const tangent = (tip.tangent_deg * Math.PI) / 180;
  const toCentre: Vec2 = [centre_mm[0] - tip.position_mm[0], centre_mm[1] - tip.position_mm[1]];
  const left = -Math.sin(tangent) * toCentre[0] + Math.cos(tangent) * toCentre[1];
  const turn = turn_deg(tip.tangent_deg, direction_deg);
  if (!Number.isFinite(turn) || Math.abs(left) < 1e-6) return null;
  return left > 0 ? -turn : turn;
}

/** "turns out 12°", "turns in 8°", "goes straight on". */
export function turnWords(outward_deg: number | null): string {
  if (outward_deg === null) return '–';
  const size = Math.round(Math.abs(outward_deg));
  if (size < 1) return 'goes straight on';
  return `turns ${outward_deg > 0 ? 'out' : 'in'} ${size}°`;
}

export const direction_deg = ([x, y]: Vec2): number => (Math.atan2(y, x) * 180) / Math.PI;

/** What the sheet would do by itself if the pull were let go now. */
export function sheetWords(tip: TipView, centre_mm: Vec2): string {
  const sheet = tip.sheet_mN;
  if (sheet === null || !(tip.drivingRatio > 0)) return '–';
  const share = (Math.hypot(...sheet) * tip.drivingRatio) / tip.drivingForce_mN;
  const way = turnWords(outwardTurn_deg(tip, direction_deg(sheet), centre_mm));
  if (!Number.isFinite(share)) return '–';
  return share >= 1 ? `runs, ${way}` : `${number(share, 2)}, ${way}`;
}

/** Net pressure and, where known, the pressure at which this tear runs without a pull. */
export const runsAtWords = (chamber: ChamberView): string => quantity(chamber.runsByItselfAt_mmHg, 1, 'mmHg');

/** What ended the attempt, in one sentence. */
export function endedWords(ended: Ended): string {
  if (ended === 'complete') return 'The disc came free and the opening has relaxed.';
  if (ended === 'run-out') return 'The tear ran out to the zonule ring.';
  if (ended === 'stalled') return 'The computation stalled, so this attempt cannot be judged.';
  return 'The opening was left open.';
}

/** When a run-out happened and from when on it could not be held any more. */
export function runOutStory(events: readonly WorldEvent[]): string | null {
  const out = events.findLast((event) => event.kind === 'run-out');
  if (out === undefined) return null;
  const where = out.clock_h === null ? '' : ` at ${clockHour(out.clock_h)}`;
  const passed = `It passed the zonule ring${where} after ${number(out.time_s, 1)} s.`;
  const from = events.findLast((event) => event.kind === 'run-out-inevitable' && event.step <= out.step);
  return from === undefined
    ? passed
    : `${passed} From ${number(from.time_s, 1)} s on, letting go would already have run.`;
}
