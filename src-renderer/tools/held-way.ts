import type { Vec2 } from '../../physics/index.ts';

/**
 * Where a pointing device has the tip. With open jaws the tip is where the device points; while tissue is held it moves
 * as far as the device does times the sensitivity, from where it was taken.
 */
export interface HeldWay {
  /** Where the device pointed when tissue was taken, mm; null while nothing is. */
  readonly taken_mm: Vec2 | null;
}

export const FREE: HeldWay = { taken_mm: null };

/** @param sensitivity way of the tip over way of the device */
export function tipOf({ taken_mm }: HeldWay, device_mm: Vec2, sensitivity: number): Vec2 {
  if (taken_mm === null) return device_mm;
  return [
    taken_mm[0] + sensitivity * (device_mm[0] - taken_mm[0]),
    taken_mm[1] + sensitivity * (device_mm[1] - taken_mm[1]),
  ];
}
