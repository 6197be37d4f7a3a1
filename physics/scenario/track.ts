import type { HandCommand } from '../world/contract.ts';
import type { HandTrack } from './hand.ts';

/**
 * What a recorded hand asks at a time: place, lift and jaws between the samples on either side, instrument and incision of the
 * earlier one; before the first and after the last sample the hand holds still.
 */
export function trackCommand(track: HandTrack, time_s: number): HandCommand {
  const { samples } = track;
  let low = 0;
  let high = samples.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (samples[middle].t_s <= time_s) low = middle;
    else high = middle - 1;
  }
  const a = samples[low];
  const b = samples[Math.min(low + 1, samples.length - 1)];
  const span = b.t_s - a.t_s;
  const u = span > 0 && b.instrument === a.instrument ? Math.min(1, Math.max(0, (time_s - a.t_s) / span)) : 0;
  const mix = (p: number, q: number) => p + u * (q - p);
  return {
    x_mm: mix(a.x_mm, b.x_mm),
    y_mm: mix(a.y_mm, b.y_mm),
    lift_mm: mix(a.lift_mm, b.lift_mm),
    jaws: mix(a.jaws, b.jaws),
    instrument: a.instrument,
    incision: a.incision,
  };
}
