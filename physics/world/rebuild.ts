/** Rebuilds the mesh round the tears and the grip and carries the state over without adding stored energy to it. */
import { Unmeshable } from '../core/unmeshable.ts';
import { solve } from '../membrane/solve.ts';
import { buildDiscMesh, type DiscMesh } from '../mesh/disc-mesh.ts';
import type { TearLine } from '../mesh/tear-line.ts';
import { carry, createTransfer, isCopied, type Transfer } from '../mesh/transfer.ts';
import { bodyEnergy, storedIn } from './energy.ts';
import { fitGrip, gripEnergy, gripForce, keepGripForce } from './grip.ts';
import { createBodyOn, installBody } from './sheet.ts';
import type { World } from './state.ts';
import { RESIDUAL_mN } from './tips.ts';

/** Share by which a carried state may hold more energy than the one it came from before its new places are moved. */
const ENERGY_GAIN = 0.002;
/** Stored energy below which a share says nothing, mN mm: a thousandth of what tears a millimetre. */
const SMALL_mN_mm = 0.01;
/** Holds copied places while the others move, mN/mm: far above any stiffness of the sheet. */
const PIN_mN_per_mm = 1e6;
/** Long enough for drag to hold nothing up; it keeps slack places from wandering. */
const LONG_s = 1e3;
/** Rings of neighbours that may move with the new places. */
const MOST_RINGS = 4;
const HALVINGS = 30;

/** What the present tears and grip make of the disc; null where they cannot be meshed. The world stays as it is. */
function meshed(world: World, oldTears: readonly TearLine[]) {
  const { frame, tears, grip, sizes } = world;
  try {
    const mesh = buildDiscMesh({
      radius_mm: frame.referenceRadius_mm,
      tears,
      grips: grip ? [grip.reference] : [],
      sizes,
    });
    return { mesh, transfer: createTransfer(world.mesh, oldTears, mesh, tears), body: createBodyOn(world, mesh) };
  } catch (fault) {
    if (fault instanceof Unmeshable) return null;
    throw fault;
  }
}

/**
 * Builds the mesh round the present tears and grip and carries the state over. `from` (3 per node) is the state that the present
 * step began with. A grip that is new is fitted to the tissue; what its jaws then store is work of the hand.
 *
 * @returns the new version of `from`; null, the world as it was, where the tears cannot be meshed: the caller then takes back
 *   what it changed of them
 */
export function remesh(world: World, oldTears: readonly TearLine[], from = world.x): Float64Array | null {
  const { account, grip } = world;
  const next = meshed(world, oldTears);
  if (next === null) return null;
  const stored = bodyEnergy(world);
  const isNew = grip !== null && grip.nodes.length === 0;
  const pulled_mN = gripForce(world);
  const { mesh, transfer, body } = next;
  world.mesh = mesh;
  world.x = carry(transfer, world.x, 3);
  world.sheet = carry(transfer, world.sheet, 3);
  const carried = carry(transfer, from, 3);
  installBody(world, body);
  if (grip && isNew) fitGrip(world, grip);
  else if (grip) keepGripForce(world, grip, pulled_mN);
  const closing = grip && isNew ? gripEnergy(world, grip) : 0;
  moveNewPlaces(world, transfer, stored + closing, carried);
  account.work += closing;
  account.turnover += closing;
  const gain = bodyEnergy(world) - stored - closing;
  account.remeshGain = Math.max(account.remeshGain, gain / Math.max(stored + closing, SMALL_mN_mm));
  world.remeshes++;
  return carried;
}

/**
 * Places that lie between old nodes come from straight triangles. Where the sheet is bent or pulled unevenly, that stores more than it
 * did. Those places, and their neighbours as far as it needs, are then moved toward their rest among the others until the
 * gain is taken back. `from` goes along, so that drag is not touched.
 */
function moveNewPlaces(world: World, transfer: Transfer, stored: number, from: Float64Array): void {
  const { body, mesh, x } = world;
  if (bodyEnergy(world) - stored <= ENERGY_GAIN * stored) return;
  const free = Uint8Array.from({ length: mesh.nodeCount }, (_, node) => (isCopied(transfer, node) ? 0 : 1));
  let rested = restOf(world, free);
  for (let ring = 0; ring < MOST_RINGS && storedIn(body, rested) >= stored; ring++) {
    addNeighbours(mesh, free);
    rested = restOf(world, free);
  }
  const trial = x.slice();
  const energyAt = (share: number): number => {
    for (let i = 0; i < x.length; i++) trial[i] = x[i] + share * (rested[i] - x[i]);
    return storedIn(body, trial);
  };
  let [low, high] = [0, 1];
  if (energyAt(1) < stored)
    for (let k = 0; k < HALVINGS; k++) {
      const middle = 0.5 * (low + high);
      if (energyAt(middle) < stored) high = middle;
      else low = middle;
    }
  energyAt(high);
  for (let i = 0; i < x.length; i++) from[i] += trial[i] - x[i];
  x.set(trial);
}

function addNeighbours({ triangle }: DiscMesh, free: Uint8Array): void {
  const before = free.slice();
  for (let t = 0; t < triangle.length; t += 3)
    if (before[triangle[t]] || before[triangle[t + 1]] || before[triangle[t + 2]])
      for (let k = 0; k < 3; k++) free[triangle[t + k]] = 1;
}

/** Where the free places come to rest while the others are held. */
function restOf(world: World, free: Uint8Array): Float64Array {
  const { body, solver } = world;
  const x = world.x.slice();
  const spring = body.spring_mN_per_mm.slice();
  const anchor = body.anchor.slice();
  for (let node = 0; node < spring.length; node++) {
    if (free[node]) continue;
    body.spring_mN_per_mm[node] = PIN_mN_per_mm;
    for (let i = node * 3; i < node * 3 + 3; i++) body.anchor[i] = x[i];
  }
  solve(body, solver, { from: world.x, dt_s: LONG_s }, x, { tolerance_mN: RESIDUAL_mN, maxIterations: 40 });
  body.spring_mN_per_mm.set(spring);
  body.anchor.set(anchor);
  solver.factored = false;
  return x;
}
