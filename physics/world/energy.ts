/** The energy account of an attempt (mN mm): work of hand and rim = stored + dragged + torn. */
import { potential } from '../membrane/body.ts';
import type { World } from './state.ts';

/** Stored in membrane, folds, zonules, grip and floor; drag left out. */
export function bodyEnergy(world: World): number {
  return potential(world.body, { from: world.x, dt_s: Infinity }, world.x);
}

/** Work done by moving the anchors from `before` to now, by the mean of the forces before and after the step. */
export function anchorWork(
  spring: Float64Array,
  before: Float64Array,
  after: Float64Array,
  xBefore: Float64Array,
  xAfter: Float64Array,
): { work: number; turnover: number } {
  let work = 0;
  let turnover = 0;
  for (let node = 0; node < spring.length; node++) {
    const k = spring[node];
    if (k === 0) continue;
    for (let i = node * 3; i < node * 3 + 3; i++) {
      const force = 0.5 * k * (before[i] - xBefore[i] + after[i] - xAfter[i]);
      const part = force * (after[i] - before[i]);
      work += part;
      turnover += Math.abs(part);
    }
  }
  return { work, turnover };
}

/** Energy that drag took over one step. */
export function dragLoss(drag: Float64Array, from: Float64Array, x: Float64Array, dt_s: number): number {
  let sum = 0;
  for (let node = 0; node < drag.length; node++)
    for (let i = node * 3; i < node * 3 + 3; i++) sum += drag[node] * (x[i] - from[i]) ** 2;
  return sum / dt_s;
}

/** What is missing in the account, as a share of the energy turned over. */
export function energyMismatch(world: World): number {
  const { account } = world;
  const stored = bodyEnergy(world) - account.initial;
  const gap = account.work - account.released - stored - account.dragged - account.torn;
  return Math.abs(gap) / Math.max(1e-9, account.turnover);
}
