import type { Scenario, StageGeometry } from '../../physics/index.ts';

/** What the target circle shows, mm. */
export interface TargetRing {
  readonly centre_mm: readonly [number, number];
  readonly diameter_mm: number;
  /** Band that the tolerance allows; both equal to the diameter where the scenario sets none. */
  readonly smallest_mm: number;
  readonly largest_mm: number;
}

/**
 * The circle to follow while tearing (the line that relaxes to the target), or, once the opening has relaxed, the
 * target itself. The tolerance on the equivalent diameter is carried over to the line in proportion.
 */
export function targetRing(geometry: StageGeometry, tolerances: Scenario['tolerances'], relaxed: boolean): TargetRing {
  const { diameter_mm: target, lineDiameter_mm: line, centre_mm } = geometry.target;
  const shown = relaxed ? target : line;
  const limit = tolerances.find((item) => item.metric === 'equivalentDiameter_mm');
  const scale = shown / target;
  return {
    centre_mm,
    diameter_mm: shown,
    smallest_mm: (limit?.atLeast ?? target) * scale,
    largest_mm: (limit?.atMost ?? target) * scale,
  };
}

/** Length of an arrow, mm, for a force that equals the tear resistance, and the longest that is drawn. */
const LENGTH_AT_RESISTANCE_mm = 1.0;
/** The longest arrow, as a multiple of that. */
const LONGEST = 2.4;

/**
 * A force as an arrow on the stage, mm. The tear resistance has a fixed length, so that arrows of different eyes
 * compare by what they can do; longer ones are cut off. Zero for anything that is not a number.
 */
export function arrowVector_mm(
  force_mN: readonly [number, number],
  resistance_mN: number,
  lengthAtResistance_mm = LENGTH_AT_RESISTANCE_mm,
): readonly [number, number] {
  const size = Math.hypot(force_mN[0], force_mN[1]);
  if (!(size > 0) || !(resistance_mN > 0) || !Number.isFinite(size)) return [0, 0];
  const length = lengthAtResistance_mm * Math.min(LONGEST, size / resistance_mN);
  return [(force_mN[0] / size) * length, (force_mN[1] / size) * length];
}
