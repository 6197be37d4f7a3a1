/**
 * The slow reference for where a tear goes: it is extended by a little in each direction of a fan, the sheet is brought to
 * rest with the same anchors and loads held, and the fall of the potential over the length is the driving force that
 * direction has. Energies only: neither the configurational force nor any field near the tip is read.
 *
 * A mesh that follows the tip has an energy of its own, about as large as what is looked for. So every direction and the
 * tear as it is are computed on one set of triangles (spoke-mesh.ts), with the new faces opened or closed: the difference
 * is 0 where opening sets nothing free, and never negative.
 */
import type { Body, Increment } from '../membrane/body.ts';
import { createSolverState, solve } from '../membrane/solve.ts';
import type { DiscMesh } from '../mesh/disc-mesh.ts';
import type { MeshRequest } from '../mesh/point-cloud.ts';
import type { TipRef } from '../mesh/tear-line.ts';
import { carry, createTransfer } from '../mesh/transfer.ts';
import { buildSpokeMesh, type SpokeMesh, weldSpokes } from './spoke-mesh.ts';
import { createTipPatch, PATCH_RADII, tipForce } from './tip-force.ts';

/** A sheet with a tip, and how to build its body (springs, anchors, loads, drag) on another mesh of the same disc. */
export interface ExtendedSheet {
  readonly request: MeshRequest;
  readonly tip: TipRef;
  readonly mesh: DiscMesh;
  /** 3 per node of `mesh`, mm. */
  readonly x: Float64Array;
  readonly bodyOn: (mesh: DiscMesh) => Body;
}

export interface ExtensionOptions {
  /** Length of the extension in the unloaded disc, mm. */
  readonly extension_mm: number;
  /** Angle between directions, degrees; a divisor of 150. */
  readonly spacing_deg: number;
  /** Directions farther round than this are not tried, degrees. */
  readonly reach_deg: number;
  /** Every direction, or only as many as are needed to find the largest. */
  readonly fan: 'all' | 'peak';
  /** Length of line over which the tangent is taken, mm; 0 for the last segment. */
  readonly span_mm: number;
  /** Time that the sheet is given to follow, s: short keeps its drag, long brings it to rest. */
  readonly time_s: number;
  /** Largest nodal residual of a state at rest, mN. */
  readonly tolerance_mN: number;
}

export interface ExtensionFan {
  /** Turn from the tangent, degrees, positive to the left, in rising order; directions that meet something are missing. */
  readonly turn_deg: readonly number[];
  /** Fall of the potential over the length of the extension, mN; 0 or more but for the solver's residual. */
  readonly drivingForce_mN: readonly number[];
  /** The largest, by a parabola through the three values round the largest of the fan. */
  readonly best: { readonly turn_deg: number; readonly drivingForce_mN: number };
  /** Configurational force of the tear as it is, on the same mesh and at the same rest, mN, reference axes. */
  readonly force_mN: readonly [number, number];
  /** Whether every state came to rest to the tolerance. */
  readonly converged: boolean;
}

const ITERATIONS = 40;

/**
 * Extends the tear in every direction of the fan. Nothing that is passed in is changed.
 *
 * @returns an empty fan and a best of 0 where no direction is free
 * @throws where the web cannot be meshed
 */
export function virtualExtensions(sheet: ExtendedSheet, options: ExtensionOptions): ExtensionFan {
  const { extension_mm, spacing_deg, reach_deg, span_mm } = options;
  const web = buildSpokeMesh(sheet.request, sheet.tip, extension_mm, spacing_deg, span_mm);
  const base = closedState(sheet, web, options);
  let { converged } = base;
  const spokes = web.angles.map((_, spoke) => spoke).filter((spoke) => turnOf(web, spoke) <= reach_deg + 1e-9);
  const known = new Map<number, number>();
  const force = (k: number): number => {
    const found = known.get(k);
    if (found !== undefined) return found;
    const opened = openedPotential(sheet, web, spokes[k], base, options);
    converged = converged && opened.converged;
    const value = (base.potential - opened.potential) / extension_mm;
    known.set(k, value);
    return value;
  };
  if (options.fan === 'all') for (let k = 0; k < spokes.length; k++) force(k);
  else climb(spokes.length, force);
  const order = [...known.keys()].sort((p, q) => p - q);
  const turn_deg = order.map((k) => (web.angles[spokes[k]] * 180) / Math.PI);
  const drivingForce_mN = order.map((k) => known.get(k)!);
  const { force_mN } = base;
  return { turn_deg, drivingForce_mN, best: largest(turn_deg, drivingForce_mN), force_mN, converged };
}

const turnOf = (web: SpokeMesh, spoke: number): number => Math.abs((web.angles[spoke] * 180) / Math.PI);

/** Directions that are tried first when only the largest is wanted: every third. */
const COARSE = 3;

/** Evaluates a coarse fan, then the neighbours of the largest until both are known. */
function climb(count: number, force: (k: number) => number): void {
  let best = 0;
  for (let k = COARSE >> 1; k < count; k += COARSE) if (force(k) > force(best)) best = k;
  for (;;) {
    let next = best;
    for (const k of [best - 1, best + 1]) if (k >= 0 && k < count && force(k) > force(next)) next = k;
    if (next === best) return;
    best = next;
  }
}

interface ClosedState {
  readonly nodeOf: Int32Array;
  /** State before and after, 3 per node of the closed mesh, mm. */
  readonly from: Float64Array;
  readonly x: Float64Array;
  readonly potential: number;
  readonly force_mN: readonly [number, number];
  readonly converged: boolean;
}

/** The tear as it is on the web's triangles, at rest. */
function closedState(sheet: ExtendedSheet, web: SpokeMesh, options: ExtensionOptions): ClosedState {
  const { extension_mm } = options;
  const { mesh, nodeOf } = weldSpokes(web, null);
  const x = carry(createTransfer(sheet.mesh, sheet.request.tears, mesh, web.tears), sheet.x, 3);
  const body = sheet.bodyOn(mesh);
  const from = x.slice();
  const state = createSolverState(mesh.nodeCount);
  const goal = { tolerance_mN: options.tolerance_mN, maxIterations: ITERATIONS };
  // the state carried over is first eased, so that the step proper starts from one that this mesh can rest in
  solve(body, state, { from, dt_s: options.time_s }, x, goal);
  from.set(x);
  const report = solve(body, state, { from, dt_s: options.time_s }, x, goal);
  // the first node of every spoke is the tip
  const tip = nodeOf[web.split.left[web.first][0]];
  const patch = createTipPatch(body.membrane, tip, PATCH_RADII[0] * extension_mm, PATCH_RADII[1] * extension_mm);
  const force_mN = tipForce(body.membrane, patch, x);
  return { nodeOf, from, x, potential: report.potential, force_mN, converged: report.converged };
}

function openedPotential(
  sheet: ExtendedSheet,
  web: SpokeMesh,
  spoke: number,
  base: ClosedState,
  options: ExtensionOptions,
): { potential: number; converged: boolean } {
  const { mesh, nodeOf } = weldSpokes(web, spoke);
  const x = new Float64Array(mesh.nodeCount * 3);
  const from = new Float64Array(mesh.nodeCount * 3);
  for (let node = 0; node < nodeOf.length; node++)
    for (let i = 0; i < 3; i++) {
      x[nodeOf[node] * 3 + i] = base.x[base.nodeOf[node] * 3 + i];
      from[nodeOf[node] * 3 + i] = base.from[base.nodeOf[node] * 3 + i];
    }
  const body = sheet.bodyOn(mesh);
  const increment: Increment = { from, dt_s: options.time_s };
  const goal = { tolerance_mN: options.tolerance_mN, maxIterations: ITERATIONS };
  const report = solve(body, createSolverState(mesh.nodeCount), increment, x, goal);
  return { potential: report.potential, converged: report.converged };
}

function largest(turn: readonly number[], force: readonly number[]): ExtensionFan['best'] {
  if (turn.length === 0) return { turn_deg: 0, drivingForce_mN: 0 };
  let at = 0;
  for (let k = 1; k < force.length; k++) if (force[k] > force[at]) at = k;
  if (at === 0 || at === force.length - 1) return { turn_deg: turn[at], drivingForce_mN: force[at] };
  const step = turn[at + 1] - turn[at];
  const even = Math.abs(turn[at] - turn[at - 1] - step) < 1e-6;
  const curve = force[at - 1] - 2 * force[at] + force[at + 1];
  if (!(even && curve < 0)) return { turn_deg: turn[at], drivingForce_mN: force[at] };
  const offset = (0.5 * (force[at - 1] - force[at + 1])) / curve;
  const peak = force[at] - 0.25 * (force[at - 1] - force[at + 1]) * offset;
  return { turn_deg: turn[at] + offset * step, drivingForce_mN: peak };
}
