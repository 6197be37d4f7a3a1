/** The capsule as a body: mesh, membrane, folds, zonule ring, drag and floor, built anew round the tears at any time. */
import { sin } from '../core/elementary/circular.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { wholePower } from '../core/elementary/whole-power.ts';
import { dragPerArea_mN_s_per_mm3 } from '../eye/fluid.ts';
import { stretchAtTension } from '../eye/tension.ts';
import { twinFactor } from '../membrane/block-cholesky.ts';
import { type Body, createBody } from '../membrane/body.ts';
import { noneEvaluated } from '../membrane/evaluated.ts';
import { createHinges } from '../membrane/hinges.ts';
import { exponentialMaterial, type Material } from '../membrane/material.ts';
import { createMembrane } from '../membrane/membrane.ts';
import { createSolverState } from '../membrane/solve.ts';
import type { DiscMesh } from '../mesh/disc-mesh.ts';
import { liveTips } from '../mesh/tear-line.ts';
import { createTipPatch, PATCH_RADII } from '../tear/tip-force.ts';
import { clockAngle, type EyeFrame } from './frame.ts';
import { placeGrip } from './grip.ts';
import type { Tip, World } from './state.ts';

/** Poisson's ratio of the folds; the membrane itself is incompressible. */
const POISSON = 0.5;

/** Stiffness of the lens under the capsule per area, mN/mm^3. Assumed, 20 to 500; only keeps the flap above. */
const FLOOR_mN_per_mm3 = 100;

export const capsuleMaterial = (frame: EyeFrame): Material =>
  exponentialMaterial((frame.eye.youngModulus_MPa * 1000) / 3, frame.eye.stiffening);

/** B = E t^3 / (12 (1 - nu^2)), mN mm. */
function bendingStiffness_mN_mm(frame: EyeFrame): number {
  const t = frame.eye.thickness_um / 1000;
  return (frame.eye.youngModulus_MPa * 1000 * wholePower(t, 3)) / (12 * (1 - POISSON * POISSON));
}

/** Body on a mesh with springs at the rim, drag and floor; anchors are set by `setRimAnchors`. */
export function createCapsuleBody(
  frame: EyeFrame,
  mesh: DiscMesh,
  material: Material,
  fluid: World['chamber']['fluid'],
  weak: World['scenario']['eye']['weakZonule'],
): Body {
  const membrane = createMembrane(mesh.reference_mm, mesh.triangle, material, frame.eye.thickness_um / 1000);
  const hinges = createHinges(mesh.reference_mm, mesh.triangle, membrane.area_mm2, bendingStiffness_mN_mm(frame));
  const body = createBody(membrane, hinges);
  const drag = dragPerArea_mN_s_per_mm3(fluid);
  for (let t = 0; t < membrane.triangleCount; t++)
    for (let k = 0; k < 3; k++) {
      const node = mesh.triangle[t * 3 + k];
      const third = membrane.area_mm2[t] / 3;
      body.drag[node] += drag * third;
      body.floor_mN_per_mm[node] += FLOOR_mN_per_mm3 * third;
    }
  const arc = rimArc_mm(frame, mesh);
  for (let node = 0; node < mesh.nodeCount; node++)
    if (mesh.stem[node] === 'rim')
      body.spring_mN_per_mm[node] = frame.eye.zonuleStiffness_mN_per_mm2 * arc * zonuleStrength(mesh, node, weak);
  return body;
}

/** Rim length that a node stands for: with it the uncut disc is in exact balance. */
const rimArc_mm = (frame: EyeFrame, mesh: DiscMesh): number =>
  frame.referenceRadius_mm * sin((2 * Math.PI) / mesh.rimCount);

function zonuleStrength(mesh: DiscMesh, node: number, weak: World['scenario']['eye']['weakZonule']): number {
  if (!weak) return 1;
  const from = clockAngle(weak.fromClock_h);
  const width = ((((weak.toClock_h - weak.fromClock_h) % 12) + 12) % 12) * (Math.PI / 6);
  const angle = atan2(mesh.reference_mm[node * 2 + 1], mesh.reference_mm[node * 2]);
  // clock hours run clockwise
  const past = (((from - angle) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return past <= width ? Math.max(1e-3, weak.strength) : 1;
}

/** Places the zonules' outer ends so that the uncut capsule carries `tension`. */
export function setRimAnchors(frame: EyeFrame, mesh: DiscMesh, body: Body, tension_mN_per_mm: number): void {
  const { eye, referenceRadius_mm: radius, lensCentre_mm } = frame;
  const stretch = stretchAtTension(tension_mN_per_mm, eye);
  const anchor = radius * stretch + tension_mN_per_mm / eye.zonuleStiffness_mN_per_mm2;
  for (let node = 0; node < mesh.nodeCount; node++) {
    if (mesh.stem[node] !== 'rim') continue;
    body.anchor[node * 3] = lensCentre_mm[0] + (anchor * mesh.reference_mm[node * 2]) / radius;
    body.anchor[node * 3 + 1] = lensCentre_mm[1] + (anchor * mesh.reference_mm[node * 2 + 1]) / radius;
    body.anchor[node * 3 + 2] = 0;
  }
}

/** Even stretch of the uncut disc under a tension, as a start for x. */
export function evenState(frame: EyeFrame, mesh: DiscMesh, tension_mN_per_mm: number): Float64Array {
  const stretch = stretchAtTension(tension_mN_per_mm, frame.eye);
  const x = new Float64Array(mesh.nodeCount * 3);
  for (let node = 0; node < mesh.nodeCount; node++) {
    x[node * 3] = frame.lensCentre_mm[0] + stretch * mesh.reference_mm[node * 2];
    x[node * 3 + 1] = frame.lensCentre_mm[1] + stretch * mesh.reference_mm[node * 2 + 1];
  }
  return x;
}

/** A body that shares everything with another but springs, anchors, factor and evaluated states. */
export function twinBody(body: Body): Body {
  return {
    ...body,
    spring_mN_per_mm: body.spring_mN_per_mm.slice(),
    anchor: body.anchor.slice(),
    factor: twinFactor(body.factor),
    evaluated: noneEvaluated(),
  };
}

/** A body of the world's eye and fluid on a mesh. */
export const createBodyOn = ({ frame, material, chamber, scenario }: World, mesh: DiscMesh): Body =>
  createCapsuleBody(frame, mesh, material, chamber.fluid, scenario.eye.weakZonule);

/** Takes a body for world.mesh; fresh solver, tips and pieces for world.mesh. */
export function installBody(world: World, body: Body): void {
  const { frame, mesh, chamber } = world;
  world.body = body;
  setRimAnchors(frame, mesh, world.body, chamber.tension_mN_per_mm);
  world.sheetBody = twinBody(world.body);
  world.solver = createSolverState(mesh.nodeCount);
  world.sheetSolver = createSolverState(mesh.nodeCount);
  world.last = new Float64Array(0);
  world.topology++;
  world.piece = findPieces(mesh);
  if (world.grip) placeGrip(world, world.grip);
  installTips(world);
}

function installTips(world: World): void {
  const { mesh, body, sizes } = world;
  const old = world.tips;
  world.tips = liveTips(world.tears).map((ref) => {
    const index = world.tears.indexOf(ref.tear);
    const faces = mesh.left[index];
    const node = ref.atEnd ? faces[faces.length - 1] : faces[0];
    const patch = createTipPatch(body.membrane, node, PATCH_RADII[0] * sizes.tip_mm, PATCH_RADII[1] * sizes.tip_mm);
    const id = ref.tear.id * 2 + (ref.atEnd ? 1 : 0);
    const before = old.find((tip) => tip.id === id);
    if (before) return { ...before, ref, node, patch };
    const fresh: Tip = {
      ref,
      id,
      node,
      patch,
      force: [0, 0],
      sheet: null,
      debt_mm: 0,
      lastAdvance_step: -1000,
      tearing: false,
      danger: null,
    };
    return fresh;
  });
}

/** 1 per triangle: 0 where it hangs together with the rim, 1 where it does not. */
export function findPieces(mesh: DiscMesh): Uint8Array {
  const parent = Int32Array.from({ length: mesh.nodeCount }, (_, k) => k);
  const root = (node: number): number => {
    let at = node;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  };
  const { triangle } = mesh;
  for (let t = 0; t < triangle.length; t += 3) {
    parent[root(triangle[t + 1])] = root(triangle[t]);
    parent[root(triangle[t + 2])] = root(triangle[t]);
  }
  const held = new Set<number>();
  for (let node = 0; node < mesh.nodeCount; node++) if (mesh.stem[node] === 'rim') held.add(root(node));
  return Uint8Array.from({ length: triangle.length / 3 }, (_, t) => (held.has(root(triangle[t * 3])) ? 0 : 1));
}
