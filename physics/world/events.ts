import { STEP_S, type WorldEventKind } from './contract.ts';
import { clockOf } from './frame.ts';
import type { World } from './state.ts';

/** Writes an event; a place in the eye frame becomes a clock hour about the target's centre. */
export function emit(world: World, kind: WorldEventKind, x_mm?: number, y_mm?: number): void {
  const [cx, cy] = world.frame.targetCentre_mm;
  const clock_h = x_mm === undefined || y_mm === undefined ? null : clockOf(x_mm - cx, y_mm - cy);
  world.events.push({ step: world.step, time_s: world.step * STEP_S, kind, clock_h });
}
