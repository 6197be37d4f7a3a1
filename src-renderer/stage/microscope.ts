import type { Vec2 } from '../../physics/index.ts';

/** Steps of magnification, as multiples of the view that shows the whole limbus. Our choice. */
export const MAGNIFICATIONS: readonly number[] = [1, 1.25, 1.6, 2, 2.5];

/** Where the eye frame lies on the stage. Pixels are CSS pixels from the stage's upper left corner, y downward. */
export interface StageFrame {
  readonly width_px: number;
  readonly height_px: number;
  readonly pxPerMm: number;
  /** Where the eye frame's origin falls. */
  readonly centre_px: Vec2;
}

/** White of the eye shown round the limbus at the smallest magnification, mm on each side. */
const SURROUND_mm = 0.95;

/** The frame of a stage of this size: the limbus fits at magnification 1, whatever the shape of the stage. */
export function frameFor(
  width_px: number,
  height_px: number,
  limbusDiameter_mm: number,
  magnification: number,
): StageFrame {
  const shorter_px = Math.max(1, Math.min(width_px, height_px));
  const field_mm = limbusDiameter_mm + 2 * SURROUND_mm;
  return {
    width_px,
    height_px,
    pxPerMm: (shorter_px / field_mm) * magnification,
    centre_px: [width_px / 2, height_px / 2],
  };
}

/** Eye frame, mm, to stage pixels. */
export function toPx(frame: StageFrame, [x_mm, y_mm]: Vec2): Vec2 {
  return [frame.centre_px[0] + x_mm * frame.pxPerMm, frame.centre_px[1] - y_mm * frame.pxPerMm];
}

/** Stage pixels to the eye frame, mm. */
export function toMm(frame: StageFrame, [x_px, y_px]: Vec2): Vec2 {
  return [(x_px - frame.centre_px[0]) / frame.pxPerMm, (frame.centre_px[1] - y_px) / frame.pxPerMm];
}

/** The next magnification in a direction; stays at the ends. */
export function steppedMagnification(present: number, direction: 1 | -1): number {
  const larger = MAGNIFICATIONS.filter((step) => step > present + 1e-9);
  const smaller = MAGNIFICATIONS.filter((step) => step < present - 1e-9);
  return (direction > 0 ? larger[0] : smaller[smaller.length - 1]) ?? present;
}

/** The magnification at which a field of this diameter just fits the shorter side of the stage. */
export const magnificationFor = (limbusDiameter_mm: number, field_mm: number): number =>
  (limbusDiameter_mm + 2 * SURROUND_mm) / field_mm;
