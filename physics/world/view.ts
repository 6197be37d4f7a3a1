/** Copies of the state for drawing and for hands that look before they move. */
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { triangleValues } from '../membrane/body.ts';
import { W1 } from '../membrane/material.ts';
import { VALUES } from '../membrane/principal.ts';
import { tipFrame } from '../mesh/tear-line.ts';
import { drivingRatio, pullSplit } from './advance.ts';
import { type InstrumentView, STEP_S, type TipView, type WorldView } from './contract.ts';
import { gripForce } from './grip.ts';
import { nextHeading } from './heading.ts';
import { faceRun, outerFaces } from './margins.ts';
import { runsByItselfAt_mmHg } from './run-out.ts';
import type { Tip, World } from './state.ts';
import { marginTurn, toEye } from './tips.ts';

const DEG = 180 / Math.PI;

/** Everything drawing needs of the present moment. Events are those since the previous view. */
export function viewWorld(world: World): WorldView {
  const { mesh, body, chamber } = world;
  const values = triangleValues(body, world.x);
  const { thickness_mm } = body.membrane;
  const tension = new Float32Array(body.membrane.triangleCount);
  for (let t = 0; t < tension.length; t++) tension[t] = Math.max(0, values[t * VALUES + W1] * thickness_mm);
  const events = world.events.slice(world.seenEvents);
  world.seenEvents = world.events.length;
  return {
    step: world.step,
    time_s: world.step * STEP_S,
    phase: world.phase,
    ended: world.ended,
    topology: world.topology,
    position_mm: Float32Array.from(world.x),
    reference_mm: Float32Array.from(mesh.reference_mm),
    triangle: Uint32Array.from(mesh.triangle),
    piece: world.piece.slice(),
    tension_mN_per_mm: tension,
    margins: marginsOf(world),
    tearPath_mm: world.tears.map((_, index) => tearPath(world, index)),
    tips: viewTips(world),
    instrument: viewInstrument(world),
    chamber: {
      chamberPressure_mmHg: chamber.chamberPressure_mmHg,
      netPressure_mmHg: chamber.netPressure_mmHg,
      runsByItselfAt_mmHg: runsByItselfAt_mmHg(world),
      fluidLost_share: chamber.fluidLost_share,
      tension_mN_per_mm: chamber.tension_mN_per_mm,
    },
    torn_mm: world.torn_mm,
    grasps: world.grasps,
    events,
    stalled: world.stalled,
  };
}

function marginsOf(world: World): Uint32Array[] {
  const { mesh } = world;
  return mesh.left.flatMap((left, index) => [faceRun(left), faceRun(mesh.right[index])]);
}

function tearPath(world: World, index: number): Float32Array {
  const run = faceRun(outerFaces(world, index));
  const path = new Float32Array(run.length * 2);
  run.forEach((node, k) => {
    path[k * 2] = world.x[node * 3];
    path[k * 2 + 1] = world.x[node * 3 + 1];
  });
  return path;
}

export const viewTips = (world: World): TipView[] => world.tips.map((tip) => viewTip(world, tip));

function viewTip(world: World, tip: Tip): TipView {
  const { x, sizes } = world;
  const { tx, ty } = tipFrame(tip.ref, 2 * sizes.tip_mm);
  const turn = marginTurn(world, tip);
  const tangent = toEye(turn, [tx, ty]);
  const heading = toEye(turn, nextHeading(world, tip, 180, 2 * sizes.tip_mm));
  const resultant = toEye(turn, tip.force);
  const sheet = tip.sheet ? toEye(turn, tip.sheet) : null;
  const [shear, stretch] = world.grip ? pullSplit(world, tip) : [0, 0];
  return {
    id: tip.id,
    live: true,
    position_mm: [x[tip.node * 3], x[tip.node * 3 + 1]],
    reference_mm: [tip.patch.x, tip.patch.y],
    tangent_deg: atan2(tangent[1], tangent[0]) * DEG,
    heading_deg: atan2(heading[1], heading[0]) * DEG,
    drivingForce_mN: hypot(...tip.force),
    drivingRatio: drivingRatio(world, tip),
    resultant_mN: resultant,
    sheet_mN: sheet,
    pull_mN: sheet ? [resultant[0] - sheet[0], resultant[1] - sheet[1]] : null,
    shear_mN: shear,
    stretch_mN: stretch,
    modeShares: modeShares(world, tip, tangent),
  };
}

/** Opening just behind the tip, resolved in the margin's normal (I), along it (II) and out of plane (III), as shares of its square. */
function modeShares(world: World, tip: Tip, tangent: readonly [number, number]): [number, number, number] {
  const index = world.tears.indexOf(tip.ref.tear);
  const left = world.mesh.left[index];
  const right = world.mesh.right[index];
  const at = tip.ref.atEnd ? left.length - 2 : 1;
  const [a, b] = [left[at] * 3, right[at] * 3];
  const { x } = world;
  const d = [0, 1, 2].map((i) => x[a + i] - x[b + i]);
  const length = hypot(tangent[0], tangent[1]) || 1;
  const along = (d[0] * tangent[0] + d[1] * tangent[1]) / length;
  const across = (d[1] * tangent[0] - d[0] * tangent[1]) / length;
  const total = along * along + across * across + d[2] * d[2];
  if (total < 1e-10) return [0, 0, 0];
  return [(across * across) / total, (along * along) / total, (d[2] * d[2]) / total];
}

function viewInstrument(world: World): InstrumentView {
  const { pose, command, frame } = world;
  const force = gripForce(world);
  const { incisions } = frame.geometry;
  const incision = Math.min(incisions.length - 1, Math.max(0, command.incision));
  return {
    kind: command.instrument,
    incision,
    tip_mm: [...pose.tip_mm],
    fulcrum_mm: incisions[incision].position_mm,
    jaws: command.jaws,
    gripping: world.grip !== null,
    force_mN: force,
    gripForce_mN: hypot(...force),
    sideLoad_mN: pose.sideLoad_mN,
    reachLimited: pose.reachLimited,
  };
}
