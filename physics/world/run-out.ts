/** The net pressure at which a tear would run with the pull let go, estimated from its present sheet part. */
import { hypot } from '../core/elementary/hypot.ts';
import { netPressureAtTension_mmHg } from '../eye/chamber.ts';
import { stretchAtTension, unitLineTension_mN_per_mm } from '../eye/tension.ts';
import { ENERGY_SLOTS, W } from '../membrane/material.ts';
import type { World } from './state.ts';

/** A sheet part below this share of the tear resistance says too little to be scaled up. */
const LEAST_SHARE = 0.02;
/** Stretch up to which a run is looked for; beyond it the estimate says nothing. */
const MOST_STRETCH = 2.5;
const BISECTIONS = 40;

/**
 * What a tear's energy release goes with when the whole tension changes: the stored energy of the evenly stretched sheet where the
 * rim is rigid, its complementary energy where the rim yields freely. The rim of an eye lies between: the geometric mean of
 * the two, asked at 0 to 8 mmHg, was within 15 % of the solved pressure at 0.5, 4, 20 and 60 years (140 degrees torn).
 */
function releaseScale(world: World, stretch: number): number {
  const { eye } = world.frame;
  const energy = new Float64Array(ENERGY_SLOTS);
  world.material.evaluate(stretch, stretch, energy);
  const stored = (energy[W] * eye.thickness_um) / 1000;
  const complementary = 2 * unitLineTension_mN_per_mm(stretch, eye) * (stretch - 1) - stored;
  return Math.sqrt(Math.max(0, stored * complementary));
}

/** mmHg, for the tip nearest to running; null when no sheet part is known or it is too small to say. */
export function runsByItselfAt_mmHg(world: World): number | null {
  const { chamber, frame } = world;
  let most = 0;
  for (const tip of world.tips) if (tip.sheet) most = Math.max(most, hypot(...tip.sheet));
  if (most <= LEAST_SHARE * frame.eye.tearResistance_mN) return null;
  const now = stretchAtTension(chamber.tension_mN_per_mm, frame.eye);
  const goal = (releaseScale(world, now) * frame.eye.tearResistance_mN) / most;
  let low = 1;
  let high = MOST_STRETCH;
  if (!(goal > 0 && releaseScale(world, high) > goal)) return null;
  for (let k = 0; k < BISECTIONS; k++) {
    const middle = 0.5 * (low + high);
    if (releaseScale(world, middle) < goal) low = middle;
    else high = middle;
  }
  return netPressureAtTension_mmHg(frame.eye, unitLineTension_mN_per_mm(low, frame.eye));
}
