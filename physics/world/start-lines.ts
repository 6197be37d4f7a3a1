/** Where the cuts of a scenario's start lie in the living eye, for drawing it before an attempt. */
import { DEFAULT_SIZES } from '../mesh/sizes.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Vec2 } from './contract.ts';
import { createEyeFrame } from './frame.ts';
import { startingTears } from './starts.ts';

/**
 * The very cuts that the world begins with, one line per cut, mm, eye frame, in the capsule before it gapes.
 *
 * @param scenario sound, as the parser gives it
 * @returns none for a start with the needle; a flap's line runs from the inner end of the radial cut to the live tip
 */
export function startLines_mm(scenario: Scenario): readonly (readonly Vec2[])[] {
  const frame = createEyeFrame(scenario);
  const [cx, cy] = frame.lensCentre_mm;
  return startingTears(scenario, frame, DEFAULT_SIZES).map(({ points }) => {
    const line: Vec2[] = [];
    for (let k = 0; k < points.length; k += 2) {
      line.push([points[k] * frame.baseStretch + cx, points[k + 1] * frame.baseStretch + cy]);
    }
    return line;
  });
}
