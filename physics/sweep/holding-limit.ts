/** The net pressure up to which a pull can hold the circle at all: there even a pull straight to the centre lets it drift outward. */
import { crossingOf } from './crossing.ts';
import { driftAt } from './hold-angle.ts';
import type { SampleOptions } from './sample-eye.ts';

/** A pull straight to the centre, degrees from the tangent. */
const TO_THE_CENTRE_deg = 90;
const MOST_mmHg = 30;
/** The search ends at this width, mmHg; within it the drift is taken as straight. */
const NARROW_mmHg = 0.5;

export interface HoldingLimit {
  /** mmHg; null when it is not reached up to 30. */
  readonly holdingLimit_mmHg: number | null;
}

/** Same flap, grasp and length torn as for the hold angle. */
export function holdingLimitOf(age_years: number, options: SampleOptions): HoldingLimit {
  // a tear that runs away before the asked length is torn has drifted as far out as one can
  const drift = (netPressure_mmHg: number) => driftAt(age_years, netPressure_mmHg, TO_THE_CENTRE_deg, options) ?? 1;
  let low = 0;
  let high = 4;
  let atLow = -1;
  let atHigh = drift(high);
  while (atHigh < 0 && high < MOST_mmHg) {
    [low, atLow] = [high, atHigh];
    high = Math.min(MOST_mmHg, 1.5 * high);
    atHigh = drift(high);
  }
  if (atHigh < 0) return { holdingLimit_mmHg: null };
  if (low === 0) atLow = drift(0);
  if (atLow >= 0) return { holdingLimit_mmHg: 0 };
  return { holdingLimit_mmHg: crossingOf(drift, [low, atLow], [high, atHigh], NARROW_mmHg)?.at ?? null };
}
