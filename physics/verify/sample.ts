/** A sheet to be solved for a check: membrane, body and state, put together by the product's own functions. */
import { hypot } from '../core/elementary/hypot.ts';
import { type Body, createBody } from '../membrane/body.ts';
import { createHinges } from '../membrane/hinges.ts';
import type { Material } from '../membrane/material.ts';
import { createMembrane, createTriangleState, type TriangleState, triangleState } from '../membrane/membrane.ts';
import { createSolverState, solve } from '../membrane/solve.ts';

/** Thickness of every sample, mm. Answers scale with it; 10 um is a capsule's. */
export const THICKNESS_mm = 0.01;

export interface Sample {
  readonly body: Body;
  /** 3 per node, mm. */
  readonly x: Float64Array;
}

export interface SampleOptions {
  /** Off in checks against elasticity that takes compression. */
  readonly tensionField?: boolean;
  /** Residual stiffness of slack directions; the product's own unless given. */
  readonly residualShare?: number;
  /** Bending stiffness, mN mm; none unless given. */
  readonly bending_mN_mm?: number;
}

/** @param reference_mm 2 per node @param triangle 3 per triangle, counter-clockwise */
export function createSample(
  reference_mm: Float64Array,
  triangle: Int32Array,
  material: Material,
  options: SampleOptions = {},
): Sample {
  const membrane = createMembrane(reference_mm, triangle, material, THICKNESS_mm, options);
  const hinges = createHinges(reference_mm, triangle, membrane.area_mm2, options.bending_mN_mm ?? 0);
  const x = new Float64Array((reference_mm.length / 2) * 3);
  for (let node = 0; node < reference_mm.length / 2; node++) {
    x[node * 3] = reference_mm[node * 2];
    x[node * 3 + 1] = reference_mm[node * 2 + 1];
  }
  return { body: createBody(membrane, hinges), x };
}

/** Drag per node over E t that stops rigid drifting, s: too small to hold anything back at the steps used. */
const STILL_DRAG_s = 1e-9;

export interface SettleOptions {
  readonly tolerance_mN: number;
  /** Steps of growing length, for sheets with slack parts that drift before they rest. */
  readonly steps?: number;
  /** Drag per node over E t, s. */
  readonly drag_s?: number;
  /** Newton iterations a step. */
  readonly iterations?: number;
}

/**
 * Brings a sample to rest under its loads and springs, x in place: steps of the incremental potential with so little drag
 * that it does not show. @throws when the last step does not converge
 */
export function settle(sample: Sample, options: SettleOptions): void {
  const { body, x } = sample;
  const { tolerance_mN, steps = 1, drag_s = STILL_DRAG_s, iterations = 200 } = options;
  const { material, thickness_mm } = body.membrane;
  body.drag.fill(drag_s * material.youngModulus_kPa * thickness_mm);
  const state = createSolverState(x.length / 3);
  const increment = { from: x.slice(), dt_s: 1 };
  for (let step = 0; step < steps; step++) {
    increment.from.set(x);
    // a decade longer every fifth of the way, up to a thousand
    increment.dt_s = 10 ** Math.min(3, Math.floor((5 * step) / steps));
    const report = solve(body, state, increment, x, { tolerance_mN, maxIterations: iterations });
    if (step === steps - 1 && !report.converged)
      throw new Error(
        `the solver stopped at a residual of ${report.residual_mN} mN after ${report.iterations} iterations, ${tolerance_mN} mN wanted`,
      );
  }
}

/** Stiffness of a spring that holds a node, over that of the sheet: displacements are held to about 1e-6. */
const CLAMP = 1e5;

/** Holds a node at a place. */
export function clamp(sample: Sample, node: number, x: number, y: number, z = 0): void {
  const { body } = sample;
  const { membrane } = body;
  body.spring_mN_per_mm[node] = CLAMP * membrane.material.youngModulus_kPa * membrane.thickness_mm;
  body.anchor.set([x, y, z], node * 3);
}

/** Calls `visit` with the state of every triangle and the centre of its reference, mm. */
export function eachTriangle(sample: Sample, visit: (state: TriangleState, cx: number, cy: number, t: number) => void) {
  const { membrane } = sample.body;
  const { triangle, reference_mm } = membrane;
  const state = createTriangleState();
  for (let t = 0; t < membrane.triangleCount; t++) {
    triangleState(membrane, sample.x, t, state);
    let cx = 0;
    let cy = 0;
    for (let k = 0; k < 3; k++) {
      cx += reference_mm[triangle[t * 3 + k] * 2] / 3;
      cy += reference_mm[triangle[t * 3 + k] * 2 + 1] / 3;
    }
    visit(state, cx, cy, t);
  }
}

/** Distance of two nodes over their distance in the reference. */
export function edgeStretch(sample: Sample, a: number, b: number): number {
  const { x, body } = sample;
  const { reference_mm } = body.membrane;
  const now = hypot(x[a * 3] - x[b * 3], x[a * 3 + 1] - x[b * 3 + 1], x[a * 3 + 2] - x[b * 3 + 2]);
  return now / hypot(reference_mm[a * 2] - reference_mm[b * 2], reference_mm[a * 2 + 1] - reference_mm[b * 2 + 1]);
}
