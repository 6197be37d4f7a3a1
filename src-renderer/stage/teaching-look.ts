import type { LivingEye } from '../worker/twin-circle.ts';

/** Driving force by direction at one tip; arrays of equal length, in order of direction. */
export interface PolarCurve {
  readonly tipId: number;
  /** Degrees counter-clockwise from +x. */
  readonly direction_deg: readonly number[];
  readonly drivingForce_mN: readonly number[];
  readonly best: { readonly direction_deg: number; readonly drivingForce_mN: number };
  readonly tearResistance_mN: number;
}

/** What is drawn over an eye for a room that looks on. */
export interface TeachingLook {
  readonly safeCone: boolean;
  readonly tensionMap: boolean;
  readonly principalStrokes: boolean;
  /** Of the very moment that is drawn; none while they are not known. */
  readonly polarCurves: readonly PolarCurve[];
  /** Line tension that has the last colour of the map, mN/mm; the same for eyes that are compared. */
  readonly tensionFull_mN_per_mm: number;
  /** Names instead of letters at the arrows. */
  readonly names: boolean;
  /** Length of an arrow as large as the tear resistance, mm. */
  readonly arrowLength_mm: number;
  readonly living: LivingEye;
}

/** Colours of the tension map from slack to taut, dark to bright, so that they tell without hue. */
const RAMP: readonly (readonly [number, number, number])[] = [
  [0.2, 0.1, 0.42],
  [0.3, 0.35, 0.72],
  [0.16, 0.62, 0.66],
  [0.56, 0.82, 0.36],
  [1.0, 0.93, 0.42],
];

/** Colour of a share of the full tension, 0 to 1: red, green, blue. */
export function tensionColour(share: number): readonly [number, number, number] {
  const at = Math.min(1, Math.max(0, Number.isFinite(share) ? share : 0)) * (RAMP.length - 1);
  const i = Math.min(RAMP.length - 2, Math.floor(at));
  const [from, to] = [RAMP[i]!, RAMP[i + 1]!];
  const mix = (k: 0 | 1 | 2) => from[k] + (at - i) * (to[k] - from[k]);
  return [mix(0), mix(1), mix(2)];
}

/** The same ramp for a legend. */
export const TENSION_GRADIENT = `linear-gradient(to right, ${[0, 0.25, 0.5, 0.75, 1]
  .map(
    (share) =>
      `rgb(${tensionColour(share)
        .map((part) => Math.round(255 * part))
        .join(' ')})`,
  )
  .join(', ')})`;
