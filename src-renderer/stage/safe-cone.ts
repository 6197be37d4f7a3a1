import type { Vec2 } from '../../physics/index.ts';

/** Pulls smaller than this have no direction worth showing, as a share of the tear resistance. Our choice. */
const SMALLEST_PULL_SHARE = 0.05;
const RAD = Math.PI / 180;

/** The directions of pull, degrees counter-clockwise from +x, that do not let the tear turn outward; from `from` to `to`. */
export interface SafeCone {
  readonly from_deg: number;
  readonly to_deg: number;
}

/**
 * The safe pulls at a tip, from the vector rule: the tear heads along J = S + P, S what the sheet does by itself and P what the
 * pull adds. Let n be the outward normal of the circle through the tip and t its direction the way the tear goes. Turn
 * the pull, its size p = |P| kept, to the angle a from t toward the centre: P = p (cos a t - sin a n).
 *
 * The tear does not turn outward while J.n <= 0:   S.n - p sin a <= 0,  so  sin a >= S.n / p      (1)
 * and it goes on, not back, while  J.t > 0:        S.t + p cos a > 0,   so  cos a > -S.t / p      (2)
 *
 * (1) holds for a between a0 = asin(S.n / p) and 180 - a0; (2) cuts that off at acos(-S.t / p). Where S.n > p no direction
 * holds it: a pull of this size is too weak, wherever it points. Where S.n < -p the sheet itself brings the tear in and (1)
 * always holds. Directions past straight back, which only such a sheet allows, are left out. P is the pull's part of the force at the tip, the amber arrow; the forceps pull about the same way.
 *
 * @param sheet_mN S @param pull_mN P, both as seen in the eye
 * @param along_deg direction of t @param outward_deg direction of n, at a right angle to it
 * @param resistance_mN the tear resistance, against which a pull counts as small
 * @returns the fan with `to_deg` the way round from `from_deg` in rising degrees, 'too-weak', or null without a pull worth the name
 */
export function safeCone(
  sheet_mN: Vec2,
  pull_mN: Vec2,
  { along_deg, outward_deg }: { readonly along_deg: number; readonly outward_deg: number },
  resistance_mN: number,
): SafeCone | 'too-weak' | null {
  const p = Math.hypot(pull_mN[0], pull_mN[1]);
  if (!(p > SMALLEST_PULL_SHARE * resistance_mN) || !Number.isFinite(p)) return null;
  const along = part(sheet_mN, along_deg);
  const outward = part(sheet_mN, outward_deg);
  if (!Number.isFinite(along + outward)) return null;
  if (outward > p) return 'too-weak';
  const first = outward < -p ? -180 : Math.asin(outward / p) / RAD;
  const last = outward < -p ? 180 : 180 - first;
  const forward = along >= p ? 180 : along <= -p ? 0 : Math.acos(-along / p) / RAD;
  const [low, high] = [Math.max(first, -forward), Math.min(last, forward)];
  if (!(high > low)) return 'too-weak';
  // angles count from the tear's direction toward the centre, which is clockwise where the tear goes clockwise
  const toCentre = turn(outward_deg + 180 - along_deg) >= 0 ? 1 : -1;
  const [a, b] = [along_deg + toCentre * low, along_deg + toCentre * high];
  return { from_deg: Math.min(a, b), to_deg: Math.max(a, b) };
}

const part = ([x, y]: Vec2, direction_deg: number): number =>
  x * Math.cos(direction_deg * RAD) + y * Math.sin(direction_deg * RAD);

const turn = (degrees: number): number => ((((degrees + 180) % 360) + 360) % 360) - 180;
