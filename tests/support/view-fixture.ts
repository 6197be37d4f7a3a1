/**
 * A stand-in for the physics door that only draws: a flat disc whose tear grows while the jaws are closed and whose
 * flap lies folded over. Nothing here is mechanics, and nothing of it is ever part of the page that ships; it exists
 * so that the stage, the hands and the worker can be looked at and tested by themselves.
 */
import type {
  AttemptResult,
  HandCommand,
  Scenario,
  StageGeometry,
  WorldEvent,
  WorldView,
} from '../../physics/index.ts';
import type { WorldDoor } from '../../src-renderer/worker/world-door.ts';

const RINGS = 26;
const SPOKES = 96;
const RIM_mm = 4.6;
const START_deg = 45;

/** Fixture's own state; the tear angle is set by closed jaws, not by any force. */
export interface DrawnEye {
  readonly scenario: Scenario;
  step: number;
  arc_deg: number;
  closed: boolean;
  command: HandCommand | null;
  tip: [number, number, number];
  grasps: number;
  pending: WorldEvent[];
  events: WorldEvent[];
  relaxedSteps: number;
}

const STEP_s = 1 / 60;
const lineRadius = (eye: DrawnEye) => eye.scenario.target.lineDiameter_mm / 2;
const ringOf = (eye: DrawnEye) => Math.round((lineRadius(eye) / RIM_mm) * RINGS);
const ringRadius = (ring: number) => (ring / RINGS) * RIM_mm;
const complete = (eye: DrawnEye) => eye.arc_deg >= 360;

function tell(eye: DrawnEye, kind: WorldEvent['kind'], clock_h: number | null = null): void {
  const event = { step: eye.step, time_s: eye.step * STEP_s, kind, clock_h };
  eye.pending.push(event);
  eye.events.push(event);
}

function step(eye: DrawnEye, command: HandCommand): void {
  eye.step += 1;
  eye.command = command;
  for (const [i, asked] of [command.x_mm, command.y_mm, command.lift_mm].entries()) {
    eye.tip[i as 0 | 1 | 2] += 0.25 * (asked - eye.tip[i as 0 | 1 | 2]);
  }
  const closed = command.jaws > 0.5;
  if (closed && !eye.closed) {
    eye.grasps += 1;
    tell(eye, 'grasp', 12);
    tell(eye, 'tear-starts', 11);
  }
  if (!closed && eye.closed) tell(eye, 'release');
  eye.closed = closed;
  if (closed && !complete(eye)) {
    eye.arc_deg = Math.min(360, eye.arc_deg + 1);
    if (complete(eye)) {
      tell(eye, 'joined', 12);
      tell(eye, 'disc-free');
    }
  }
  if (complete(eye)) eye.relaxedSteps += 1;
}

const phaseOf = (eye: DrawnEye): WorldView['phase'] =>
  !complete(eye) ? 'working' : eye.relaxedSteps < 30 ? 'relaxing' : 'ended';

interface Nodes {
  readonly place: number[];
  readonly reference: number[];
  /** Node at ring and spoke, on the flap's side or the rim's. */
  at(ring: number, spoke: number, flap: boolean): number;
}

/** Spokes at which the circle is cut; the last one is the tip and stays whole unless the circle is closed. */
function cutSpokes(eye: DrawnEye): number {
  return Math.floor((eye.arc_deg / 360) * SPOKES);
}

/** Folds the cut part of the disc over the chord from the tear's start to its tip. */
function folded(eye: DrawnEye, x: number, y: number): [number, number, number] {
  if (complete(eye)) return [0.55 * x + eye.tip[0], 0.55 * y + eye.tip[1], 0.5 + 0.25 * Math.sin(3 * x + 2 * y)];
  const radius = ringRadius(ringOf(eye));
  const to = ((90 + eye.arc_deg) * Math.PI) / 180;
  const [ax, ay, bx, by] = [0, radius, radius * Math.cos(to), radius * Math.sin(to)];
  const length = Math.hypot(bx - ax, by - ay);
  if (length < 1e-6) return [x, y, 0];
  const [nx, ny] = [(by - ay) / length, -(bx - ax) / length];
  // the cut part of the disc lies to the right of the chord
  const beyond = (x - ax) * nx + (y - ay) * ny;
  if (beyond <= 0) return [x, y, 0];
  const roll = 0.16;
  if (beyond < Math.PI * roll) {
    const turn = beyond / roll;
    return [
      x + (roll * Math.sin(turn) - beyond) * nx,
      y + (roll * Math.sin(turn) - beyond) * ny,
      roll * (1 - Math.cos(turn)),
    ];
  }
  const back = beyond + (beyond - Math.PI * roll);
  return [x - back * nx, y - back * ny, 2 * roll + 0.04 * Math.sin(4 * x) * Math.cos(5 * y)];
}

function nodes(eye: DrawnEye): Nodes {
  const place: number[] = [];
  const reference: number[] = [];
  const cut = ringOf(eye);
  const last = cutSpokes(eye);
  const inArc = (spoke: number) => complete(eye) || spoke < last;
  const grow = complete(eye) ? 1.04 : 1;
  const add = (x: number, y: number, flap: boolean) => {
    reference.push(x, y);
    const rim = 1 + (grow - 1) * (1 - Math.hypot(x, y) / RIM_mm);
    place.push(...(flap ? folded(eye, x, y) : ([x * rim, y * rim, 0] as const)));
    return reference.length / 2 - 1;
  };
  const index = new Map<string, number>();
  index.set('0', add(0, 0, true));
  for (let ring = 1; ring <= RINGS; ring++) {
    for (let spoke = 0; spoke < SPOKES; spoke++) {
      const angle = Math.PI / 2 + (2 * Math.PI * spoke) / SPOKES;
      const [x, y] = [ringRadius(ring) * Math.cos(angle), ringRadius(ring) * Math.sin(angle)];
      index.set(`${ring}/${spoke}`, add(x, y, ring < cut));
      if (ring === cut && inArc(spoke)) index.set(`${ring}/${spoke}f`, add(x, y, true));
    }
  }
  const at = (ring: number, spoke: number, flap: boolean) => {
    if (ring === 0) return index.get('0')!;
    const key = `${ring}/${spoke % SPOKES}`;
    return (flap ? index.get(`${key}f`) : undefined) ?? index.get(key)!;
  };
  return { place, reference, at };
}

function triangles(eye: DrawnEye, { at }: Nodes): { triangle: number[]; piece: number[] } {
  const triangle: number[] = [];
  const piece: number[] = [];
  const cut = ringOf(eye);
  for (let ring = 0; ring < RINGS; ring++) {
    const flap = ring < cut;
    for (let spoke = 0; spoke < SPOKES; spoke++) {
      const [a, b] = [at(ring, spoke, flap), at(ring, spoke + 1, flap)];
      const [c, d] = [at(ring + 1, spoke, flap), at(ring + 1, spoke + 1, flap)];
      const corners =
        ring === 0
          ? [[a, c, d]]
          : [
              [a, c, d],
              [a, d, b],
            ];
      for (const corner of corners) {
        triangle.push(...corner);
        piece.push(flap && complete(eye) ? 1 : 0);
      }
    }
  }
  return { triangle, piece };
}

function margins(eye: DrawnEye, { at }: Nodes): Uint32Array[] {
  const cut = ringOf(eye);
  const spokes = Array.from({ length: cutSpokes(eye) + 1 }, (_, spoke) => spoke);
  return [false, true].map((flap) => Uint32Array.from(spokes.map((spoke) => at(cut, spoke, flap))));
}

function tips(eye: DrawnEye): WorldView['tips'] {
  if (complete(eye)) return [];
  const angle = Math.PI / 2 + (2 * Math.PI * cutSpokes(eye)) / SPOKES;
  const radius = ringRadius(ringOf(eye));
  const position: [number, number] = [radius * Math.cos(angle), radius * Math.sin(angle)];
  const [tx, ty] = [-Math.sin(angle), Math.cos(angle)];
  const [cx, cy] = [-Math.cos(angle), -Math.sin(angle)];
  const along = (t: number, c: number): [number, number] => [t * tx + c * cx, t * ty + c * cy];
  const [sheet, pull] = [along(0.28, -0.26), along(0.5, 0.42)];
  const resultant: [number, number] = [sheet[0] + pull[0], sheet[1] + pull[1]];
  const driving = Math.hypot(...resultant) * (eye.closed ? 1 : 0.4);
  return [
    {
      id: 1,
      live: true,
      position_mm: position,
      reference_mm: position,
      tangent_deg: ((angle + Math.PI / 2) * 180) / Math.PI,
      heading_deg: (Math.atan2(resultant[1], resultant[0]) * 180) / Math.PI,
      drivingForce_mN: driving,
      drivingRatio: driving / 0.7,
      resultant_mN: eye.closed ? resultant : sheet,
      sheet_mN: sheet,
      pull_mN: eye.closed ? pull : [0, 0],
      shear_mN: eye.closed ? 5.2 : 0,
      stretch_mN: eye.closed ? 3.1 : 0,
      modeShares: eye.closed ? [0.3, 0.2, 0.5] : [0, 0, 0],
    },
  ];
}

function view(eye: DrawnEye): WorldView {
  const made = nodes(eye);
  const { triangle, piece } = triangles(eye, made);
  const command = eye.command;
  const events = eye.pending;
  eye.pending = [];
  return {
    step: eye.step,
    time_s: eye.step * STEP_s,
    phase: phaseOf(eye),
    ended: phaseOf(eye) === 'ended' ? 'complete' : null,
    topology: cutSpokes(eye),
    position_mm: Float32Array.from(made.place),
    reference_mm: Float32Array.from(made.reference),
    triangle: Uint32Array.from(triangle),
    piece: Uint8Array.from(piece),
    tension_mN_per_mm: new Float32Array(piece.length),
    margins: margins(eye, made),
    tearPath_mm: [],
    tips: tips(eye),
    instrument: {
      kind: command?.instrument ?? 'forceps',
      incision: command?.incision ?? 0,
      tip_mm: [...eye.tip],
      fulcrum_mm: incisionAt(eye.scenario, command?.incision ?? 0),
      jaws: command?.jaws ?? 0,
      gripping: eye.closed,
      force_mN: [0, 0, 0],
      gripForce_mN: eye.closed ? 6.1 : 0,
      sideLoad_mN: 0.4,
      reachLimited: false,
    },
    chamber: {
      chamberPressure_mmHg: 2,
      netPressure_mmHg: 0.4,
      runsByItselfAt_mmHg: eye.step % 120 < 60 ? null : 3.4,
      fluidLost_share: 0.02,
      tension_mN_per_mm: 1,
    },
    torn_mm: (eye.arc_deg / 360) * 2 * Math.PI * lineRadius(eye),
    grasps: eye.grasps,
    events,
    stalled: false,
  };
}

const LIMBUS_mm = 10.4;

function incisionAt(scenario: Scenario, index: number): [number, number] {
  const hour = scenario.incisions[index]?.clock_h ?? 6;
  const angle = Math.PI / 2 - (hour * Math.PI) / 6;
  return [(LIMBUS_mm / 2) * Math.cos(angle), (LIMBUS_mm / 2) * Math.sin(angle)];
}

function geometry(scenario: Scenario): StageGeometry {
  return {
    limbusDiameter_mm: LIMBUS_mm,
    pupilDiameter_mm: scenario.eye.pupilDiameter_mm,
    opacityDiameter_mm: scenario.eye.opacityDiameter_mm,
    lensDiameter_mm: 9.2,
    zonuleFreeDiameter_mm: 6.8,
    anteriorRadius_mm: 6,
    dyed: scenario.eye.dyed,
    pupilCentre_mm: [0, 0],
    lensCentre_mm: [0, 0],
    target: {
      centre_mm: [0, 0],
      diameter_mm: scenario.target.diameter_mm,
      lineDiameter_mm: scenario.target.lineDiameter_mm,
    },
    incisions: scenario.incisions.map((one, i) => ({ ...one, position_mm: incisionAt(scenario, i) })),
  };
}

/** Made-up numbers in the shape of a result, for looking at the result card only. */
function result(eye: DrawnEye): AttemptResult {
  const diameter = eye.scenario.target.diameter_mm;
  return {
    scenario: eye.scenario.id,
    hand: 'bench',
    seed: 1,
    modelVersion: 'drawn',
    ended: 'complete',
    opening: {
      equivalentDiameter_mm: diameter + 0.11,
      largestDiameter_mm: diameter + 0.3,
      largestDiameterAxis_deg: 40,
      smallestDiameter_mm: diameter - 0.1,
      smallestDiameterAxis_deg: 130,
      area_mm2: 18.9,
      perimeter_mm: 15.6,
      centroidDistance_mm: 0.12,
      centroidDirection_clock_h: 2.5,
      circularity: 0.93,
      axisRatio: 0.92,
      rmsDeviation_mm: 0.09,
      peakDeviation_mm: 0.22,
      opticOverlapSmallest_mm: 0.31,
      opticUncovered_clock_h: [],
      largestKink_deg: 14,
      radialNicks: 0,
      longestNick_mm: 0,
    },
    work: {
      time_s: eye.step * STEP_s,
      grasps: eye.grasps,
      arcPerGrasp_deg: 315 / Math.max(1, eye.grasps),
      tornLength_mm: 12,
      gripToTipMean_mm: 0.9,
      peakForce_mN: 11,
      rmsForce_mN: 6,
      handPath_mm: 30,
      handPathOverTorn: 2.5,
      shearShare: 0.6,
      stretchShare: 0.4,
      tensionWithoutTear_s: 1.2,
      refills: 0,
      fluidLost_share: 0.1,
      peakSideLoad_mN: 4,
      nearRunOuts: 1,
      rescues: 1,
    },
    graded: eye.scenario.tolerances.map((item, i) => ({
      ...item,
      value: 1 + i / 3,
      met: i % 3 !== 2,
      reason: 'Drawn.',
    })),
    passed: false,
    tears: [],
    outline_mm: null,
    events: eye.events,
    steps: eye.step,
    digest: 'drawn',
    energyMismatch: 0,
    caution: 'Teaching model, not for planning surgery. Local protocol and supervised practice come first.',
  };
}

export const drawnDoor: WorldDoor<DrawnEye> = {
  createWorld: (scenario) => ({
    scenario,
    step: 0,
    arc_deg: START_deg,
    closed: false,
    command: null,
    tip: [0.6, -1.2, 1],
    grasps: 0,
    pending: [],
    events: [],
    relaxedSteps: 0,
  }),
  stepWorld: step,
  viewWorld: view,
  stageGeometry: geometry,
  noteMoments: () => ({ record: () => {}, moments: () => [] }),
  attemptResult: result,
};

/** Name under which the worker asks for its door. */
export const worldDoor = drawnDoor;
