/*
 * AssemblyScript, not TypeScript: the stiffness of stiffness.ts and body.ts on linear memory, in the same order, so that both give
 * the same bits; see linear.as.ts.
 */

/** Slots of a triangle's values, bytes: material.ts and principal.ts. */
const W1: usize = 8;
const W2: usize = 16;
const W11: usize = 24;
const W12: usize = 32;
const W22: usize = 40;
const L1: usize = 48;
const L2: usize = 56;
const COS: usize = 64;
const SIN: usize = 72;
const AXES: usize = 80;
const VALUES: usize = 152;

let w11: f64 = 0;
let w12: f64 = 0;
let w22: f64 = 0;
let alpha: f64 = 0;
let beta: f64 = 0;
let out1: f64 = 0;
let out2: f64 = 0;

function most(a: f64, b: f64): f64 {
  return max<f64>(a, b);
}

/** As localStiffness() in stiffness.ts. */
function localStiffness(v: usize): void {
  const l1 = load<f64>(v, L1);
  const l2 = load<f64>(v, L2);
  const s1 = load<f64>(v, W1);
  const s2 = load<f64>(v, W2);
  let a = load<f64>(v, W11);
  let b = load<f64>(v, W12);
  let d = load<f64>(v, W22);
  const flipWhenEqual = a - b;
  const mean = 0.5 * (a + d);
  const half = 0.5 * (a - d);
  const radius = sqrt<f64>(half * half + b * b);
  if (mean - radius < 0) {
    const top = most(0, mean + radius);
    const c2: f64 = radius > 0 ? half / radius : 1;
    const t2: f64 = radius > 0 ? b / radius : 0;
    a = 0.5 * top * (1 + c2);
    d = 0.5 * top * (1 - c2);
    b = 0.5 * top * t2;
  }
  w11 = a;
  w12 = b;
  w22 = d;
  const gap = l1 - l2;
  const flip = gap > 1e-6 * l1 ? (s1 - s2) / gap : flipWhenEqual;
  const twist = (s1 + s2) / (l1 + l2);
  const f = most(0, flip);
  const w = most(0, twist);
  alpha = 0.5 * (f + w);
  beta = 0.5 * (f - w);
  out1 = most(0, s1 / l1);
  out2 = most(0, s2 / most(l2, 1e-3));
}

function add(p: usize, amount: f64): void {
  store<f64>(p, load<f64>(p) + amount);
}

/** As addPair() in stiffness.ts; `mirror` 0 where there is none. */
function addPair(pa: f64, qa: f64, pb: f64, qb: f64, volume: f64, n: usize, at: usize, mirror: usize): void {
  const k11 = volume * (w11 * pa * pb + alpha * qa * qb);
  const k12 = volume * (w12 * pa * qb + beta * qa * pb);
  const k21 = volume * (w12 * qa * pb + beta * pa * qb);
  const k22 = volume * (w22 * qa * qb + alpha * pa * pb);
  const k33 = volume * (out1 * pa * pb + out2 * qa * qb);
  const x0 = load<f64>(n);
  const y0 = load<f64>(n, 8);
  const z0 = load<f64>(n, 16);
  const x1 = load<f64>(n, 24);
  const y1 = load<f64>(n, 32);
  const z1 = load<f64>(n, 40);
  const x2 = load<f64>(n, 48);
  const y2 = load<f64>(n, 56);
  const z2 = load<f64>(n, 64);
  const rx1 = x0 * k11 + x1 * k21;
  const rx2 = x0 * k12 + x1 * k22;
  const rx3 = x2 * k33;
  const ry1 = y0 * k11 + y1 * k21;
  const ry2 = y0 * k12 + y1 * k22;
  const ry3 = y2 * k33;
  const rz1 = z0 * k11 + z1 * k21;
  const rz2 = z0 * k12 + z1 * k22;
  const rz3 = z2 * k33;
  const xx = rx1 * x0 + rx2 * x1 + rx3 * x2;
  const xy = rx1 * y0 + rx2 * y1 + rx3 * y2;
  const xz = rx1 * z0 + rx2 * z1 + rx3 * z2;
  const yx = ry1 * x0 + ry2 * x1 + ry3 * x2;
  const yy = ry1 * y0 + ry2 * y1 + ry3 * y2;
  const yz = ry1 * z0 + ry2 * z1 + ry3 * z2;
  const zx = rz1 * x0 + rz2 * x1 + rz3 * x2;
  const zy = rz1 * y0 + rz2 * y1 + rz3 * y2;
  const zz = rz1 * z0 + rz2 * z1 + rz3 * z2;
  add(at, xx);
  add(at + 8, xy);
  add(at + 16, xz);
  add(at + 24, yx);
  add(at + 32, yy);
  add(at + 40, yz);
  add(at + 48, zx);
  add(at + 56, zy);
  add(at + 64, zz);
  if (mirror === 0) return;
  add(mirror, xx);
  add(mirror + 8, yx);
  add(mirror + 16, zx);
  add(mirror + 24, xy);
  add(mirror + 32, yy);
  add(mirror + 40, zy);
  add(mirror + 48, xz);
  add(mirror + 56, yz);
  add(mirror + 64, zz);
}

/**
 * The matrix of a state, as stiffness() in body.ts: the constant part, the triangles from their values, then the nodes' own
 * stiffness in the plane and across it.
 */
export function assemble(
  nodes: i32,
  blocks: i32,
  triangles: i32,
  thickness: f64,
  constant: usize,
  values: usize,
  gradient: usize,
  area: usize,
  places: usize,
  diagonal: usize,
  plane: usize,
  across: usize,
  out: usize,
): void {
  memory.copy(out, constant, <usize>blocks * 72);
  for (let t: i32 = 0; t < triangles; t++) {
    localStiffness(values);
    const c = load<f64>(values, COS);
    const s = load<f64>(values, SIN);
    const volume = load<f64>(area) * thickness;
    const p0 = c * load<f64>(gradient) + s * load<f64>(gradient, 8);
    const q0 = c * load<f64>(gradient, 8) - s * load<f64>(gradient);
    const p1 = c * load<f64>(gradient, 16) + s * load<f64>(gradient, 24);
    const q1 = c * load<f64>(gradient, 24) - s * load<f64>(gradient, 16);
    const p2 = c * load<f64>(gradient, 32) + s * load<f64>(gradient, 40);
    const q2 = c * load<f64>(gradient, 40) - s * load<f64>(gradient, 32);
    const n = values + AXES;
    addPair(p0, q0, p0, q0, volume, n, out + <usize>load<i32>(places) * 8, 0);
    addPair(p0, q0, p1, q1, volume, n, out + <usize>load<i32>(places, 4) * 8, out + <usize>load<i32>(places, 12) * 8);
    addPair(p0, q0, p2, q2, volume, n, out + <usize>load<i32>(places, 8) * 8, out + <usize>load<i32>(places, 24) * 8);
    addPair(p1, q1, p1, q1, volume, n, out + <usize>load<i32>(places, 16) * 8, 0);
    addPair(p1, q1, p2, q2, volume, n, out + <usize>load<i32>(places, 20) * 8, out + <usize>load<i32>(places, 28) * 8);
    addPair(p2, q2, p2, q2, volume, n, out + <usize>load<i32>(places, 32) * 8, 0);
    values += VALUES;
    gradient += 48;
    area += 8;
    places += 36;
  }
  for (let node: i32 = 0; node < nodes; node++) {
    const at = out + <usize>load<i32>(diagonal) * 72;
    const k = load<f64>(plane);
    add(at, k);
    add(at + 32, k);
    add(at + 64, load<f64>(across));
    diagonal += 4;
    plane += 8;
    across += 8;
  }
}
