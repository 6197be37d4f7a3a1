import type { StressIntensity } from '../../../physics/verify/reference/slits.ts';

/**
 * Slit of any smooth shape in a wide sheet under even tension, by a distribution of edge dislocations along it: an answer
 * that owes nothing to finite elements. Muskhelishvili's potentials of a dislocation B at z0 are
 * Phi = B/(z - z0), Psi = conj(B)/(z - z0) + B conj(z0)/(z - z0)^2; on a line with tangent angle a the traction is
 * N + i T = Phi + conj(Phi) + exp(2 i a) (conj(z) Phi' + Psi). The density is g(s)/sqrt(1 - s^2), solved at
 * Gauss-Chebyshev points; the displacement must close (sum of g = 0). Erdogan and Gupta 1972; end value after Krenk 1975
 * (both from memory; the straight slit checks them).
 */
export interface SlitCurve {
  /** s from -1 to 1 at even speed along the slit. */
  point(s: number): readonly [number, number];
  tangent_rad(s: number): number;
  /** Half the length. */
  readonly halfLength: number;
}

/** Arc of radius R about the origin, counter-clockwise. */
export const arcCurve = (R: number, halfAngle_deg: number): SlitCurve => {
  const al = (halfAngle_deg * Math.PI) / 180;
  return {
    point: (s) => [R * Math.cos(al * s), R * Math.sin(al * s)],
    tangent_rad: (s) => al * s + Math.PI / 2,
    halfLength: R * al,
  };
};

/** Straight slit through the origin, at an angle to x. */
export const straightCurve = (a: number, angle_deg: number): SlitCurve => {
  const angle = (angle_deg * Math.PI) / 180;
  return {
    point: (s) => [a * s * Math.cos(angle), a * s * Math.sin(angle)],
    tangent_rad: () => angle,
    halfLength: a,
  };
};

/** K at the end s = 1 under even far tension of 1, KII positive where the tip would kink to the right of its tangent. */
export function slitKByDislocations(curve: SlitCurve, points = 40): StressIntensity {
  const n = points;
  const place = (i: number) => Math.cos(((2 * i + 1) * Math.PI) / (2 * n));
  const rows: number[][] = [];
  for (let j = 1; j < n; j += 1) {
    const s = Math.cos((j * Math.PI) / n);
    const across: number[] = [];
    const along: number[] = [];
    for (let k = 0; k < n; k += 1) {
      // columns: real part of g, then its imaginary part
      for (const B of [[1, 0] as const, [0, 1] as const]) {
        const [N, T] = traction(curve, s, place(k), B);
        across.push((N * Math.PI * curve.halfLength) / n);
        along.push((T * Math.PI * curve.halfLength) / n);
      }
    }
    rows.push([...across, -1], [...along, 0]);
  }
  rows.push([...Array.from({ length: 2 * n }, (_, i) => (i + 1) % 2), 0]);
  rows.push([...Array.from({ length: 2 * n }, (_, i) => i % 2), 0]);
  return intensityAtEnd(curve, solve(rows), n);
}

function intensityAtEnd(curve: SlitCurve, g: readonly number[], n: number): StressIntensity {
  let re = 0;
  let im = 0;
  for (let k = 0; k < n; k += 1) {
    const odd = 2 * k + 1;
    const weight = Math.sin((odd * (2 * n - 1) * Math.PI) / (4 * n)) / Math.sin((odd * Math.PI) / (4 * n)) / n;
    re += weight * g[2 * k];
    im += weight * g[2 * k + 1];
  }
  // conj(g exp(-i a)), a the tangent at the end
  const a = curve.tangent_rad(1);
  const scale = 2 * Math.PI * Math.sqrt(Math.PI * curve.halfLength);
  return {
    KI: scale * (re * Math.cos(a) + im * Math.sin(a)),
    KII: scale * (re * Math.sin(a) - im * Math.cos(a)),
  };
}

type Complex = readonly [number, number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const plus = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d];
const conj = ([a, b]: Complex): Complex => [a, -b];
const inverse = ([a, b]: Complex): Complex => [a / (a * a + b * b), -b / (a * a + b * b)];

/** N, T on the slit at s from the dislocation B at s0. */
function traction(curve: SlitCurve, s: number, s0: number, B: Complex): Complex {
  const z = curve.point(s);
  const z0 = curve.point(s0);
  const q = inverse([z[0] - z0[0], z[1] - z0[1]]);
  const phi = times(B, q);
  const bq2 = times(phi, q);
  // conj(z) Phi' + Psi = -conj(z - z0) B q^2 + conj(B) q
  const shift: Complex = [z0[0] - z[0], z[1] - z0[1]];
  const rest = plus(times(shift, bq2), times(conj(B), q));
  const a = 2 * curve.tangent_rad(s);
  return plus([2 * phi[0], 0], times([Math.cos(a), Math.sin(a)], rest));
}

/** Gauss elimination with row exchange; rows carry their right side last. */
function solve(rows: number[][]): number[] {
  const n = rows.length;
  for (let i = 0; i < n; i += 1) {
    let pivot = i;
    for (let r = i + 1; r < n; r += 1) if (Math.abs(rows[r][i]) > Math.abs(rows[pivot][i])) pivot = r;
    [rows[i], rows[pivot]] = [rows[pivot], rows[i]];
    for (let r = i + 1; r < n; r += 1) {
      const factor = rows[r][i] / rows[i][i];
      for (let c = i; c <= n; c += 1) rows[r][c] -= factor * rows[i][c];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i -= 1) {
    let sum = rows[i][n];
    for (let c = i + 1; c < n; c += 1) sum -= rows[i][c] * x[c];
    x[i] = sum / rows[i][i];
  }
  return x;
}
