/*
 * AssemblyScript, not TypeScript: what every triangle and fold carries at a state, as principal.ts, material.ts (the exponential
 * material), relaxed.ts, membrane.ts and hinges.ts have it, operation by operation in the same order, so that both give the same
 * bits; see linear.as.ts.
 */

import { exp, expm1 } from './exponential.as';

/** Constants of principal.ts and material.ts. */
const COLLAPSED: f64 = 1e-9;
const EQUAL_STRETCHES: f64 = 1e-13;
const EXPONENT_CAP: f64 = 12;

/** As evaluate() of exponentialMaterial. */
function exponential(mu: f64, b: f64, l1: f64, l2: f64, out: usize): void {
  const r1 = 1.0 / l1;
  const r2 = 1.0 / l2;
  const l3sq = r1 * r1 * r2 * r2;
  const invariant = l1 * l1 + l2 * l2 + l3sq - 3.0;
  const i1 = 2.0 * (l1 - l3sq * r1);
  const i2 = 2.0 * (l2 - l3sq * r2);
  const i11 = 2.0 + 6.0 * l3sq * r1 * r1;
  const i22 = 2.0 + 6.0 * l3sq * r2 * r2;
  const i12 = 4.0 * l3sq * r1 * r2;
  let g = 0.5 * mu;
  let h: f64 = 0;
  if (b > 0) {
    const exponent = b * invariant;
    if (exponent <= EXPONENT_CAP) {
      const e = exp(exponent);
      store<f64>(out, (0.5 * mu * expm1(exponent)) / b);
      g *= e;
      h = g * b;
    } else {
      const e = exp(EXPONENT_CAP);
      const past = exponent - EXPONENT_CAP;
      store<f64>(out, ((0.5 * mu) / b) * (e * (1.0 + past + 0.5 * past * past) - 1.0));
      g *= e * (1.0 + past);
      h = 0.5 * mu * b * e;
    }
  } else store<f64>(out, g * invariant);
  store<f64>(out, g * i1, 8);
  store<f64>(out, g * i2, 16);
  store<f64>(out, g * i11 + h * i1 * i1, 24);
  store<f64>(out, g * i12 + h * i1 * i2, 32);
  store<f64>(out, g * i22 + h * i2 * i2, 40);
}

/** As evaluateRelaxed(). */
function relaxed(mu: f64, b: f64, residual: f64, l1: f64, l2: f64, out: usize): void {
  if (l1 < 1) {
    const p = l1 - 1.0;
    const q = l2 - 1.0;
    store<f64>(out, 0.5 * residual * (p * p + q * q));
    store<f64>(out, residual * p, 8);
    store<f64>(out, residual * q, 16);
    store<f64>(out, residual, 24);
    store<f64>(out, 0, 32);
    store<f64>(out, residual, 40);
    return;
  }
  const width = 1.0 / sqrt<f64>(l1);
  if (l2 >= width) {
    exponential(mu, b, l1, l2, out);
    return;
  }
  exponential(mu, b, l1, width, out);
  const slope = -0.5 / (l1 * sqrt<f64>(l1));
  const gap = l2 - width;
  const w12 = load<f64>(out, 32);
  const w22 = load<f64>(out, 40);
  store<f64>(out, load<f64>(out, 24) + (slope * (2.0 * w12 + slope * w22) + residual * slope * slope), 24);
  store<f64>(out, load<f64>(out, 8) + (slope * load<f64>(out, 16) - residual * gap * slope), 8);
  store<f64>(out, -residual * slope, 32);
  store<f64>(out, residual, 40);
  store<f64>(out, residual * gap, 16);
  store<f64>(out, load<f64>(out) + 0.5 * residual * gap * gap);
}

/** As principalFrame(): stretches and axes of the triangle at `t` (3 nodes) with gradients at `g`, to the values at `v`. */
function principal(t: usize, g: usize, x: usize, v: usize): void {
  const a: usize = x + <usize>load<i32>(t) * 24;
  const b: usize = x + <usize>load<i32>(t, 4) * 24;
  const c: usize = x + <usize>load<i32>(t, 8) * 24;
  const gbx = load<f64>(g, 16);
  const gby = load<f64>(g, 24);
  const gcx = load<f64>(g, 32);
  const gcy = load<f64>(g, 40);
  const a0 = load<f64>(a);
  const a1 = load<f64>(a, 8);
  const a2 = load<f64>(a, 16);
  const b0 = load<f64>(b) - a0;
  const b1 = load<f64>(b, 8) - a1;
  const b2 = load<f64>(b, 16) - a2;
  const c0 = load<f64>(c) - a0;
  const c1 = load<f64>(c, 8) - a1;
  const c2 = load<f64>(c, 16) - a2;
  const u0 = b0 * gbx + c0 * gcx;
  const u1 = b1 * gbx + c1 * gcx;
  const u2 = b2 * gbx + c2 * gcx;
  const v0 = b0 * gby + c0 * gcy;
  const v1 = b1 * gby + c1 * gcy;
  const v2 = b2 * gby + c2 * gcy;
  const c11 = u0 * u0 + u1 * u1 + u2 * u2;
  const c22 = v0 * v0 + v1 * v1 + v2 * v2;
  const c12 = u0 * v0 + u1 * v1 + u2 * v2;
  const mean = 0.5 * (c11 + c22);
  const half = 0.5 * (c11 - c22);
  const radius = sqrt<f64>(half * half + c12 * c12);
  const w0 = u1 * v2 - u2 * v1;
  const w1 = u2 * v0 - u0 * v2;
  const w2 = u0 * v1 - u1 * v0;
  const ratio = sqrt<f64>(w0 * w0 + w1 * w1 + w2 * w2);
  const l1 = max<f64>(COLLAPSED, sqrt<f64>(mean + radius));
  let cos: f64 = 1;
  let sin: f64 = 0;
  if (radius > EQUAL_STRETCHES * mean) {
    if (half >= 0) {
      cos = sqrt<f64>(0.5 * (1.0 + half / radius));
      sin = c12 / (2.0 * radius * cos);
    } else {
      sin = sqrt<f64>(0.5 * (1.0 - half / radius));
      cos = c12 / (2.0 * radius * sin);
    }
  }
  store<f64>(v, l1, 48);
  store<f64>(v, min<f64>(l1, max<f64>(COLLAPSED, ratio / l1)), 56);
  store<f64>(v, cos, 64);
  store<f64>(v, sin, 72);
  const e0 = u0 * cos + v0 * sin;
  const e1 = u1 * cos + v1 * sin;
  const e2 = u2 * cos + v2 * sin;
  const length = sqrt<f64>(e0 * e0 + e1 * e1 + e2 * e2);
  const some = length > COLLAPSED;
  const n0: f64 = some ? e0 / length : 1;
  const n1: f64 = some ? e1 / length : 0;
  const n2: f64 = some ? e2 / length : 0;
  let m0: f64;
  let m1: f64;
  let m2: f64;
  if (ratio > COLLAPSED) {
    m0 = w0 / ratio;
    m1 = w1 / ratio;
    m2 = w2 / ratio;
  } else {
    const across = abs<f64>(n2) < 0.9;
    const d = across ? n2 : n0;
    const o0 = (across ? 0.0 : 1.0) - d * n0;
    const o1 = -d * n1;
    const o2 = (across ? 1.0 : 0.0) - d * n2;
    const scale = 1.0 / sqrt<f64>(o0 * o0 + o1 * o1 + o2 * o2);
    m0 = o0 * scale;
    m1 = o1 * scale;
    m2 = o2 * scale;
  }
  store<f64>(v, n0, 80);
  store<f64>(v, n1, 88);
  store<f64>(v, n2, 96);
  store<f64>(v, m1 * n2 - m2 * n1, 104);
  store<f64>(v, m2 * n0 - m0 * n2, 112);
  store<f64>(v, m0 * n1 - m1 * n0, 120);
  store<f64>(v, m0, 128);
  store<f64>(v, m1, 136);
  store<f64>(v, m2, 144);
}

/**
 * Values, forces and energies of triangles and folds at `x`. `force` has been emptied. `sums` takes the energy summed by area, not
 * yet times the thickness, that summed by volume, and that of the folds, not yet halved.
 */
export function evaluate(
  triangles: i32,
  hinges: i32,
  triangle: usize,
  gradient: usize,
  area: usize,
  hinge: usize,
  weight: usize,
  x: usize,
  values: usize,
  force: usize,
  sums: usize,
  mu: f64,
  stiffening: f64,
  residual: f64,
  thickness: f64,
): void {
  let byArea: f64 = 0;
  let byVolume: f64 = 0;
  for (let t: i32 = 0; t < triangles; t++) {
    principal(triangle, gradient, x, values);
    relaxed(mu, stiffening, residual, load<f64>(values, 48), load<f64>(values, 56), values);
    const w = load<f64>(values);
    byArea += w * load<f64>(area);
    const volume = load<f64>(area) * thickness;
    byVolume += w * volume;
    const s1 = load<f64>(values, 8) * volume;
    const s2 = load<f64>(values, 16) * volume;
    const c = load<f64>(values, 64);
    const s = load<f64>(values, 72);
    const n0 = load<f64>(values, 80);
    const n1 = load<f64>(values, 88);
    const n2 = load<f64>(values, 96);
    const n3 = load<f64>(values, 104);
    const n4 = load<f64>(values, 112);
    const n5 = load<f64>(values, 120);
    for (let k: i32 = 0; k < 3; k++) {
      const gx = load<f64>(gradient);
      const gy = load<f64>(gradient, 8);
      const p = s1 * (c * gx + s * gy);
      const q = s2 * (c * gy - s * gx);
      const a: usize = force + <usize>load<i32>(triangle) * 24;
      store<f64>(a, load<f64>(a) + (p * n0 + q * n3));
      store<f64>(a, load<f64>(a, 8) + (p * n1 + q * n4), 8);
      store<f64>(a, load<f64>(a, 16) + (p * n2 + q * n5), 16);
      gradient += 16;
      triangle += 4;
    }
    values += 152;
    area += 8;
  }
  store<f64>(sums, byArea);
  store<f64>(sums, byVolume, 8);
  let bends: f64 = 0;
  for (let h: i32 = 0; h < hinges; h++) {
    const a: usize = <usize>load<i32>(hinge) * 24;
    const b: usize = <usize>load<i32>(hinge, 4) * 24;
    const c: usize = <usize>load<i32>(hinge, 8) * 24;
    const d: usize = <usize>load<i32>(hinge, 12) * 24;
    const wa = load<f64>(weight);
    const wb = load<f64>(weight, 8);
    const wc = load<f64>(weight, 16);
    const wd = load<f64>(weight, 24);
    for (let axis: usize = 0; axis < 24; axis += 8) {
      const from = x + axis;
      const to = force + axis;
      const bend =
        wa * load<f64>(from + a) + wb * load<f64>(from + b) + wc * load<f64>(from + c) + wd * load<f64>(from + d);
      bends += bend * bend;
      store<f64>(to + a, load<f64>(to + a) + wa * bend);
      store<f64>(to + b, load<f64>(to + b) + wb * bend);
      store<f64>(to + c, load<f64>(to + c) + wc * bend);
      store<f64>(to + d, load<f64>(to + d) + wd * bend);
    }
    hinge += 16;
    weight += 32;
  }
  store<f64>(sums, bends, 16);
}
