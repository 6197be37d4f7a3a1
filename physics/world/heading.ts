/** Which way a tip of the world would go next, by the world's rule of direction. */
import { tipFrame } from '../mesh/tear-line.ts';
import { directionTurn } from '../tear/direction.ts';
import { turnedBy } from '../tear/law.ts';
import type { Tip, World } from './state.ts';

/**
 * Unit vector, reference axes, turned from the tear's tangent by no more than the limit.
 * @param span_mm length of line over which the tangent is taken; 0 for the last element
 */
export function nextHeading(world: World, tip: Tip, limit_deg: number, span_mm = 0): [number, number] {
  const { x, y, tx, ty } = tipFrame(tip.ref, span_mm);
  const turn = directionTurn(world.direction, {
    membrane: world.body.membrane,
    x: world.x,
    tip: { x, y, tx, ty },
    force: tip.force,
    edge_mm: world.sizes.tip_mm,
    fresh: tip.lastAdvance_step < 0,
  });
  return turnedBy([tx, ty], turn, limit_deg);
}
