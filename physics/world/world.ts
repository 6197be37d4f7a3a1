/** An attempt in an eye: made from a scenario, moved on only by stepWorld, one fixed step at a time. */

import { hypot } from '../core/elementary/hypot.ts';
import { createChamber, stepChamber } from '../eye/chamber.ts';
import { createInstrumentRig } from '../instrument/rig.ts';
import { type Increment, potential } from '../membrane/body.ts';
import { createSolverState, solve } from '../membrane/solve.ts';
import { buildDiscMesh } from '../mesh/disc-mesh.ts';
import { DEFAULT_SIZES, type MeshSizes } from '../mesh/sizes.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { DirectionRule } from '../tear/direction.ts';
import { advanceTears, drivingRatio } from './advance.ts';
import { type HandCommand, STEP_S, type WorldEvent } from './contract.ts';
import { anchorWork, bodyEnergy, dragLoss, energyMismatch } from './energy.ts';
import { emit } from './events.ts';
import { createEyeFrame } from './frame.ts';
import { drawIn, followTurn, gripForce, setGripAnchors } from './grip.ts';
import { letGo, workJaws } from './hold.ts';
import { faceRun, outerFaces } from './margins.ts';
import { openingOutline, signedArea } from './opening-outline.ts';
import {
  capsuleMaterial,
  createCapsuleBody,
  evenState,
  findPieces,
  installBody,
  setRimAnchors,
  twinBody,
} from './sheet.ts';
import { partsOfStep } from './snap.ts';
import { startingTears } from './starts.ts';
import type { World } from './state.ts';
import { RESIDUAL_mN, updateSheetForces, updateTipForces } from './tips.ts';
import { createWorkRecorder } from './work-recorder.ts';

/** The sheet's part is brought up to date this often, steps. */
const SHEET_EVERY = 12;
/** A sheet part over this share of the tear resistance is a near run-out; under the second it is over. Assumed. */
const NEAR_RUN_OUT = 0.85;
const SAFE_AGAIN = 0.7;
/** Steps without an advance after which a tear has stopped. */
const STOPPED_AFTER = 15;
/** Time for the opening to relax once the disc is free, steps. */
const RELAX_STEPS = 60;
/** Residual above which a step counts as stalled, mN: a tenth of a small grip. */
const STALLED_mN = 0.5;
/** Farthest a hand may ask, mm, and highest. */
const FAR_mm = 20;
const HIGH_mm = 3;

export interface WorldOptions {
  readonly sizes?: MeshSizes;
  /** Rule by which tips find their direction; 'vector' unless given. The blend gives other digests. */
  readonly direction?: DirectionRule;
  /** Into how many equal parts the sheet's way in each step is split, 1 or more: for measuring what the step's length does. */
  readonly parts?: number;
}

/** A world at rest with the scenario's starting cuts. The scenario has been checked by parseScenario. */
export function createWorld(scenario: Scenario, seed = scenario.seed, options: WorldOptions = {}): World {
  const frame = createEyeFrame(scenario);
  const sizes = options.sizes ?? DEFAULT_SIZES;
  const material = capsuleMaterial(frame);
  const tears = startingTears(scenario, frame, sizes);
  const chamber = createChamber(scenario.chamber, frame.eye);
  const mesh = buildDiscMesh({ radius_mm: frame.referenceRadius_mm, tears, grips: [], sizes });
  const body = createCapsuleBody(frame, mesh, material, chamber.fluid, scenario.eye.weakZonule);
  const rig = createInstrumentRig({
    limbusDiameter_mm: frame.geometry.limbusDiameter_mm,
    pupilDiameter_mm: frame.geometry.pupilDiameter_mm,
    pupilCentre_mm: frame.geometry.pupilCentre_mm,
    incisions: frame.geometry.incisions,
  });
  const pose = rig.pose();
  const x = evenState(frame, mesh, chamber.tension_mN_per_mm);
  const world: World = {
    scenario,
    seed,
    frame,
    material,
    sizes,
    direction: options.direction ?? 'vector',
    parts: options.parts ?? 1,
    rig,
    recorder: createWorkRecorder(),
    chamber,
    pose,
    command: { x_mm: pose.tip_mm[0], y_mm: pose.tip_mm[1], lift_mm: 1, jaws: 0, instrument: 'forceps', incision: 0 },
    tears,
    mesh,
    body,
    solver: createSolverState(mesh.nodeCount),
    sheetBody: twinBody(body),
    sheetSolver: createSolverState(mesh.nodeCount),
    sheet: x.slice(),
    x,
    last: new Float64Array(0),
    tips: [],
    nextId: tears.length,
    grip: null,
    cutting: null,
    letGo_step: -1000,
    piece: findPieces(mesh),
    topology: 0,
    step: 0,
    phase: 'working',
    ended: null,
    freed_step: -1,
    events: [],
    seenEvents: 0,
    stalled: false,
    account: {
      work: 0,
      turnover: 0,
      dragged: 0,
      torn: 0,
      initial: 0,
      remeshGain: 0,
      released: 0,
      mismatch: -1,
    },
    tornNow: [],
    torn_mm: 0,
    grasps: 0,
    openArea_share: 0,
    linearIterations: 0,
    newtonIterations: 0,
    remeshes: 0,
  };
  installBody(world, body);
  settle(world);
  world.sheet.set(world.x);
  updateTipForces(world);
  updateSheetForces(world);
  world.account.initial = bodyEnergy(world);
  return world;
}

/** Brings the sheet to rest under its present anchors. */
export function settle(world: World): void {
  for (const dt_s of [1, 10, 100, 1000]) {
    const from = world.x.slice();
    solve(world.body, world.solver, { from, dt_s }, world.x, {
      tolerance_mN: RESIDUAL_mN,
      maxIterations: 60,
    });
  }
}

/** Moves the world on by STEP_S. Everything a person does comes in through `asked`; commands must be finite. */
export function stepWorld(world: World, asked: HandCommand): void {
  if (world.phase === 'ended') return;
  world.step++;
  world.tornNow = [];
  const events = world.events.length;
  const before = world.command;
  world.command = clampCommand(asked, world.frame.geometry.incisions.length);
  world.pose = world.rig.step(world.command, gripForce(world), STEP_S);
  workJaws(world, before, world.command);
  moveSheet(world);
  if (world.step % SHEET_EVERY === 0) watchSheet(world);
  watchTips(world);
  watchEnding(world);
  record(world, world.events.slice(events));
}

function clampCommand(asked: HandCommand, incisions: number): HandCommand {
  const clamp = (v: number, low: number, high: number) => Math.min(high, Math.max(low, Number.isFinite(v) ? v : low));
  const far = Math.max(1, hypot(asked.x_mm, asked.y_mm) / FAR_mm);
  return {
    x_mm: clamp(asked.x_mm / far, -FAR_mm, FAR_mm),
    y_mm: clamp(asked.y_mm / far, -FAR_mm, FAR_mm),
    lift_mm: clamp(asked.lift_mm, 0, HIGH_mm),
    jaws: clamp(asked.jaws, 0, 1),
    instrument: asked.instrument,
    incision: Math.round(clamp(asked.incision, 0, incisions - 1)),
  };
}

/** Chamber, anchors, equilibrium, tears: one step of the sheet with its energy account. */
function moveSheet(world: World): void {
  const { account, body } = world;
  moveChamber(world);
  const anchorBefore = body.anchor.slice();
  const xBefore = world.x.slice();
  setRimAnchors(world.frame, world.mesh, body, world.chamber.tension_mN_per_mm);
  if (world.grip) {
    drawIn(world.grip, STEP_S);
    followTurn(world, world.grip);
    setGripAnchors(world, world.grip);
  }
  const parts = partsOfStep(world);
  let increment: Increment = { from: xBefore, dt_s: STEP_S };
  parts.forEach((dt_s, part) => {
    increment = { from: world.x.slice(), dt_s };
    bringToRest(world, increment);
    if (part < parts.length - 1) account.dragged += dragLoss(world.body.drag, increment.from, world.x, dt_s);
  });
  const moved = anchorWork(body.spring_mN_per_mm, anchorBefore, body.anchor, xBefore, world.x);
  account.work += moved;
  account.turnover += Math.abs(moved);
  updateTipForces(world);
  if (world.phase === 'working' && !advanceTears(world, increment)) holdSound(world, world.x, Number.MAX_VALUE);
  account.dragged += dragLoss(world.body.drag, increment.from, world.x, increment.dt_s);
}

function moveChamber(world: World): void {
  const { command } = world;
  // a swollen lens empties as fast as the capsule opens
  if (world.scenario.chamber.insidePressure_mmHg > 0) widen(world);
  const injecting = command.instrument === 'cannula' && command.jaws > 0.5;
  const wasFull = world.chamber.fill_share;
  world.chamber = stepChamber(
    world.chamber,
    {
      instrumentIn: true,
      sideLoad_mN: world.pose.sideLoad_mN,
      refilling: injecting,
      openAreaShare: world.openArea_share,
    },
    STEP_S,
  );
  if (injecting && wasFull < 0.98 && world.chamber.fill_share >= 0.98) emit(world, 'refill');
}

/** Most halvings of a step that does not come to rest. */
const HALVINGS = 3;

/**
 * Solves one increment. One that does not come to rest is tried again in two halves; where that fails too, the last good
 * state stands and the world says that it stalled.
 */
function bringToRest(world: World, increment: Increment, halvings = 0): void {
  goOn(world, increment);
  const report = solve(world.body, world.solver, increment, world.x, { tolerance_mN: RESIDUAL_mN, maxIterations: 40 });
  world.newtonIterations += report.iterations;
  world.linearIterations += report.linearIterations;
  if (!(report.residual_mN < STALLED_mN) && halvings < HALVINGS) {
    world.x.set(increment.from);
    world.solver.factored = false;
    const dt_s = 0.5 * increment.dt_s;
    bringToRest(world, { from: increment.from, dt_s }, halvings + 1);
    bringToRest(world, { from: world.x.slice(), dt_s }, halvings + 1);
    return;
  }
  holdSound(world, increment.from, report.residual_mN);
}

/** Starts the search where the last step's motion would lead, when that is lower than staying. */
function goOn(world: World, increment: Increment): void {
  const { x, last, body } = world;
  if (last.length === x.length) {
    const guess = x.slice();
    for (let i = 0; i < x.length; i++) guess[i] += x[i] - last[i];
    if (potential(body, increment, guess) < potential(body, increment, x)) x.set(guess);
  }
  world.last = increment.from.slice();
}

/** A step that went wrong keeps the last good state and says so. */
function holdSound(world: World, good: Float64Array, residual_mN: number): void {
  const sound = residual_mN < STALLED_mN;
  if (!(residual_mN < Infinity)) world.x.set(good);
  if (world.stalled === !sound) return;
  world.stalled = !sound;
  emit(world, sound ? 'resumed' : 'stalled');
}

function watchSheet(world: World): void {
  updateSheetForces(world);
  widen(world);
  for (const tip of world.tips) {
    if (!tip.sheet) continue;
    const share = hypot(...tip.sheet) / world.frame.eye.tearResistance_mN;
    const px = world.x[tip.node * 3];
    const py = world.x[tip.node * 3 + 1];
    const danger = share > 1 ? 'run-out-inevitable' : share > NEAR_RUN_OUT ? 'near-run-out' : null;
    if (danger && danger !== tip.danger && tip.danger !== 'run-out-inevitable') {
      tip.danger = danger;
      emit(world, danger, px, py);
    } else if (tip.danger && share < SAFE_AGAIN) {
      tip.danger = null;
      emit(world, 'rescued', px, py);
    }
  }
}

/** What has flowed out of the lens does not come back when the opening narrows: the widest opening so far counts. */
function widen(world: World): void {
  world.openArea_share = Math.max(world.openArea_share, openArea(world));
}

/** Area between the torn line and its chord, or of the opening once it is closed, over that of the capsule. */
function openArea(world: World): number {
  const { frame } = world;
  const radius_mm = frame.eye.lensDiameter_mm / 2;
  const whole = Math.PI * (radius_mm * radius_mm);
  const outline = openingOutline(world);
  if (outline && world.freed_step >= 0) return Math.min(1, Math.abs(signedArea(outline)) / whole);
  let area = 0;
  for (let k = 0; k < world.tears.length; k++) {
    const run = faceRun(outerFaces(world, k));
    area += Math.abs(
      signedArea(Array.from(run, (node): [number, number] => [world.x[node * 3], world.x[node * 3 + 1]])),
    );
  }
  return Math.min(1, area / whole);
}

function watchTips(world: World): void {
  for (const tip of world.tips) {
    if (!tip.tearing || world.step - tip.lastAdvance_step <= STOPPED_AFTER) continue;
    tip.tearing = false;
    emit(world, 'tear-stops', world.x[tip.node * 3], world.x[tip.node * 3 + 1]);
  }
}

function watchEnding(world: World): void {
  if (world.phase !== 'working' && world.account.mismatch < 0) world.account.mismatch = energyMismatch(world);
  if (world.phase === 'working' && world.piece.includes(1)) {
    world.account.mismatch = energyMismatch(world);
    world.phase = 'relaxing';
    world.freed_step = world.step;
    emit(world, 'disc-free');
  }
  if (world.phase === 'relaxing' && world.step - world.freed_step >= RELAX_STEPS) {
    if (world.grip) letGo(world, 'release');
    settle(world);
    world.phase = 'ended';
    world.ended = 'complete';
    emit(world, 'complete');
  }
  if (world.phase === 'working' && world.step * STEP_S >= world.scenario.timeLimit_s) {
    world.phase = 'ended';
    world.ended = world.stalled ? 'stalled' : 'open';
    emit(world, 'time-up');
  }
}

function record(world: World, events: readonly WorldEvent[]): void {
  const { command } = world;
  let gripToTip_mm: number | null = null;
  if (world.grip)
    for (const tip of world.tips) {
      const d = hypot(world.grip.reference[0] - tip.patch.x, world.grip.reference[1] - tip.patch.y);
      gripToTip_mm = Math.min(gripToTip_mm ?? Infinity, d * world.frame.baseStretch);
    }
  world.recorder.record({
    time_s: world.step * STEP_S,
    dt_s: STEP_S,
    asked_mm: [command.x_mm, command.y_mm, command.lift_mm],
    gripping: world.grip !== null,
    force_mN: gripForce(world),
    sideLoad_mN: world.pose.sideLoad_mN,
    torn: world.tornNow,
    drivingRatio: world.tips.reduce((most, tip) => Math.max(most, drivingRatio(world, tip)), 0),
    gripToTip_mm,
    fluidLost_share: world.chamber.fluidLost_share,
    events,
  });
}
