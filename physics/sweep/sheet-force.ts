/** What the sheet alone does at a partly torn circle: its force, where that points, and the pressure at which it tears by itself. */
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { uncutTension_mN_per_mm } from '../eye/chamber.ts';
import { tipFrame } from '../mesh/tear-line.ts';
import type { World } from '../world/state.ts';
import { partlyTorn, retense, type SampleOptions } from './sample-eye.ts';

/** Arc at which the sheet's part is asked, degrees: between 120 and 150 it is largest under a dead load. */
export const ASKED_ARC_deg = 140;
/** Net pressures looked at for a run, mmHg. */
const MOST_mmHg = 60;
const MARGIN_STEPS = 12;

export interface SheetForce {
  readonly sheetForce_mN: number;
  /** Force over the tear resistance; the tear runs by itself above 1. */
  readonly sheetShare: number;
  /** Direction from the forward tangent of the tear; negative is outward, degrees. */
  readonly direction_deg: number;
}

function forceOf(world: World): SheetForce {
  const tip = world.tips[0];
  const sheetForce_mN = hypot(tip.force[0], tip.force[1]);
  const { tx, ty } = tipFrame(tip.ref, 4 * world.sizes.tip_mm);
  // the tear goes round counter-clockwise, so its left is toward the centre
  const inward = tx * tip.force[1] - ty * tip.force[0];
  const along = tx * tip.force[0] + ty * tip.force[1];
  return {
    sheetForce_mN,
    sheetShare: sheetForce_mN / world.frame.eye.tearResistance_mN,
    direction_deg: (atan2(inward, along) * 180) / Math.PI,
  };
}

/** The sheet's part of the driving force at a usual tear of ASKED_ARC_deg. @param netPressure_mmHg -30 to 60 */
export function sheetForceAt(age_years: number, netPressure_mmHg: number, options: SampleOptions): SheetForce {
  return forceOf(partlyTorn(age_years, netPressure_mmHg, ASKED_ARC_deg, options));
}

export interface RunOutMargin {
  /** Net pressure at which the sheet's part alone reaches the tear resistance, mmHg; null when it does not up to 60. */
  readonly runOutMargin_mmHg: number | null;
  /** Width of the last bracket, mmHg. */
  readonly within_mmHg: number;
}

/** Found by bisection over the whole model at rest: every pressure is solved anew. */
export function runOutMarginOf(age_years: number, options: SampleOptions, arc_deg = ASKED_ARC_deg): RunOutMargin {
  const world = partlyTorn(age_years, 0, arc_deg, options);
  const share = (netPressure_mmHg: number) => {
    retense(world, uncutTension_mN_per_mm(world.frame.eye, netPressure_mmHg));
    return forceOf(world).sheetShare;
  };
  let low = 0;
  let high = 4;
  while (high < MOST_mmHg && share(high) < 1) {
    low = high;
    high *= 2;
  }
  if (high >= MOST_mmHg && share(MOST_mmHg) < 1) return { runOutMargin_mmHg: null, within_mmHg: 0 };
  for (let k = 0; k < MARGIN_STEPS && high - low > 0.02; k++) {
    const middle = 0.5 * (low + high);
    if (share(middle) < 1) low = middle;
    else high = middle;
  }
  return { runOutMargin_mmHg: 0.5 * (low + high), within_mmHg: high - low };
}
