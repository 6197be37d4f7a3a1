/**
 * The energy account of an attempt (mN mm): work of hand and rim = stored + dragged + torn. Work is the mean force of a
 * step times the anchors' way; dragged is drag times the way of the sheet; torn is the tip force times the length torn; stored
 * is summed from the state. All four are measured apart, so the account can fail. In thin fluid a sheet that is let go
 * snaps within one implicit step, which takes more than its drag: there the gap shows it.
 */
import { type Body, potential } from '../membrane/body.ts';
import type { World } from './state.ts';

/** Stored in membrane, folds, zonules, grip and floor; drag left out. */
export const bodyEnergy = ({ body, x }: World): number => storedIn(body, x);

export const storedIn = (body: Body, x: Float64Array): number => potential(body, { from: x, dt_s: Infinity }, x);

/** Work done by moving the anchors over a step, by the mean of the forces before and after it. */
export function anchorWork(
  spring: Float64Array,
  before: Float64Array,
  after: Float64Array,
  xBefore: Float64Array,
  xAfter: Float64Array,
): number {
  let work = 0;
  for (let node = 0; node < spring.length; node++) {
    const k = spring[node];
    if (k === 0) continue;
    for (let i = node * 3; i < node * 3 + 3; i++)
      work += 0.5 * k * (before[i] - xBefore[i] + after[i] - xAfter[i]) * (after[i] - before[i]);
  }
  return work;
}

/** Energy that drag takes over a step, c |x - from|^2 / dt. */
export function dragLoss(drag: Float64Array, from: Float64Array, x: Float64Array, dt_s: number): number {
  let sum = 0;
  for (let node = 0; node < drag.length; node++)
    for (let i = node * 3; i < node * 3 + 3; i++) sum += drag[node] * ((x[i] - from[i]) * (x[i] - from[i]));
  return sum / dt_s;
}

/** What is missing in the account up to now, as a share of the work put in (sum of its sizes step by step). */
export function energyMismatch(world: World): number {
  const { account } = world;
  const stored = bodyEnergy(world) - account.initial;
  const gap = account.work - account.released - stored - account.dragged - account.torn;
  return Math.abs(gap) / Math.max(1e-9, account.turnover);
}
