/** How a step is split where the sheet has been let go and snaps. */
import { wholePower } from '../core/elementary/whole-power.ts';
import { dragPerArea_mN_s_per_mm3 } from '../eye/fluid.ts';
import { STEP_S } from './contract.ts';
import type { World } from './state.ts';

/** Steps after a release that are split, and into how many parts. */
const SNAP_STEPS = 6;
const SNAP_PARTS = 6;
/**
 * In a fluid of less drag than this (mN s/mm^3; two of the shipped ones, against 0.055 and more) a sheet that is let go snaps within a
 * part of that size. The step of the release is then split into parts that grow by a factor, from 0.002 ms on.
 */
const THIN_DRAG = 0.02;
const THIN_PARTS = 40;
const THIN_GROWTH = 1.2;

/** Lengths of the parts of a step, s: shorter ones resolve what drag takes of a sheet that has just been let go. */
export function partsOfStep(world: World): readonly number[] {
  const since = world.step - world.letGo_step;
  const parts = since === 0 ? snapParts(world) : null;
  if (parts) return parts;
  return evenly(STEP_S, world.parts * (since < SNAP_STEPS ? SNAP_PARTS : 1));
}

/** Lengths of the parts of a step in which the sheet snaps, s; null where the fluid resolves it by itself. */
export function snapParts({ chamber, parts }: World): readonly number[] | null {
  if (dragPerArea_mN_s_per_mm3(chamber.fluid) >= THIN_DRAG) return null;
  const shares = Array.from({ length: THIN_PARTS }, (_, k) => wholePower(THIN_GROWTH, k));
  const sum = shares.reduce((a, b) => a + b);
  return shares.flatMap((share) => evenly((STEP_S * share) / sum, parts));
}

const evenly = (dt_s: number, parts: number): readonly number[] => Array<number>(parts).fill(dt_s / parts);
