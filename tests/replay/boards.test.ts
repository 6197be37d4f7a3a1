/** Plays the pair of every built-in board in the model and measures what its text says is seen. */
import { describe, expect, test } from 'vitest';
import {
  createWorld,
  type HandCommand,
  handPlayer,
  STEP_S,
  stepWorld,
  sweepCell,
  type TipView,
  viewWorld,
  type World,
  type WorldEvent,
  type WorldView,
} from '../../physics/index.ts';
import { boardSetup, shippedScenario } from '../../src-renderer/places/lecture/boards/board-setup.ts';
import { builtInBoards } from '../../src-renderer/places/lecture/boards/built-in-boards.ts';
import { direction_deg, outwardTurn_deg } from '../../src-renderer/ui/words.ts';

const { boards, problems } = builtInBoards();
const boardOf = (id: string) => boards.find((one) => one.id === id)!;

interface PlayedEye {
  readonly world: World;
  /** One a step, from before the first. */
  readonly views: readonly WorldView[];
  readonly events: readonly WorldEvent[];
}

/** Where an empty forceps waits: over the capsule, touching nothing. */
const AT_REST: HandCommand = { x_mm: 0, y_mm: 0, lift_mm: 2, jaws: 0, instrument: 'forceps', incision: 0 };

/** The pair as the place runs it: the hand sees the first eye, both get its commands. A live hand keeps still. */
function playBoard(id: string, time_s = boardOf(id).stopAt_s ?? 0.1): readonly PlayedEye[] {
  const setup = boardSetup(boardOf(id), shippedScenario, 'board', '');
  if (!setup.ok) throw new Error(JSON.stringify(setup.problems));
  const { left, right, hand, seed } = setup.value;
  const worlds = [left, ...(right === null ? [] : [right])].map((eye) => createWorld(eye.scenario, seed));
  const views = worlds.map((world) => [viewWorld(world)]);
  const next = hand.kind === 'program' ? handPlayer(worlds[0], hand.hand) : () => AT_REST;
  for (let step = 0; step < Math.round(time_s / STEP_S); step++) {
    const command = next(views[0].at(-1)!);
    if (command === null) break;
    worlds.forEach((world, eye) => {
      if (world.phase === 'ended') return;
      stepWorld(world, command);
      views[eye].push(viewWorld(world));
    });
  }
  return worlds.map((world, eye) => ({ world, views: views[eye], events: world.events }));
}

const last = ({ views }: PlayedEye): WorldView => views.at(-1)!;
const centreOf = ({ world }: PlayedEye) => world.frame.targetCentre_mm;
const size = (vector: readonly [number, number] | null): number =>
  vector === null ? Number.NaN : Math.hypot(...vector);
/** Distance of the tip from the middle of the unloaded disc: what was torn, whatever the pull does to its place. */
const tornRadius_mm = ({ tips }: WorldView): number => Math.hypot(...tips[0].reference_mm);
const sheetTurn_deg = (eye: PlayedEye, tip: TipView): number =>
  outwardTurn_deg(tip, direction_deg(tip.sheet_mN!), centreOf(eye))!;
const timeOf = ({ events }: PlayedEye, kind: WorldEvent['kind']): number =>
  events.find((event) => event.kind === kind)?.time_s ?? Number.POSITIVE_INFINITY;

function median(values: readonly number[]): number {
  expect(values.length).toBeGreaterThan(10);
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
}

/** Largest distance between the two sides of a slit, mm. */
function gape_mm({ margins, position_mm }: WorldView): number {
  const distance = (a: number, b: number) =>
    Math.hypot(position_mm[3 * a] - position_mm[3 * b], position_mm[3 * a + 1] - position_mm[3 * b + 1]);
  const [one, other] = margins;
  return Math.max(...Array.from(one, (a) => Math.min(...Array.from(other, (b) => distance(a, b)))));
}

interface EdgeTriangle {
  readonly tension: number;
  /** Angle between the direction of most stretch and the edge, degrees, 0 to 90. */
  readonly lean_deg: number;
}

/** Triangles of the outer side that lie along the middle of the torn edge, within 0.15 mm of it. */
function alongEdge(eye: PlayedEye): readonly EdgeTriangle[] {
  const view = last(eye);
  const [cx, cy] = centreOf(eye);
  const path = view.tearPath_mm[0];
  const found: EdgeTriangle[] = [];
  for (let t = 0; t < view.tension_mN_per_mm.length; t++) {
    const nodes = [0, 1, 2].map((k) => view.triangle[3 * t + k]);
    const x = nodes.reduce((sum, node) => sum + view.position_mm[3 * node] / 3, 0);
    const y = nodes.reduce((sum, node) => sum + view.position_mm[3 * node + 1] / 3, 0);
    let nearest = 0;
    let distance = Number.POSITIVE_INFINITY;
    for (let k = 0; k < path.length; k += 2) {
      const here = Math.hypot(x - path[k], y - path[k + 1]);
      if (here < distance) [distance, nearest] = [here, k];
    }
    const outside = Math.hypot(x - cx, y - cy) > Math.hypot(path[nearest] - cx, path[nearest + 1] - cy);
    const share = nearest / path.length;
    if (distance > 0.15 || !outside || share < 0.35 || share > 0.75) continue;
    const along = Math.atan2(path[nearest + 3] - path[nearest - 1], path[nearest + 2] - path[nearest - 2]);
    const turn = Math.abs(Math.sin(mostStretched(view, nodes) - along));
    found.push({ tension: view.tension_mN_per_mm[t], lean_deg: (Math.asin(Math.min(1, turn)) * 180) / Math.PI });
  }
  return found;
}

/** Direction in which a flat triangle is stretched most, radians in the eye. */
function mostStretched({ position_mm: p, reference_mm: r }: WorldView, [a, b, c]: readonly number[]): number {
  const [e, f] = [r[2 * b] - r[2 * a], r[2 * b + 1] - r[2 * a + 1]];
  const [g, h] = [r[2 * c] - r[2 * a], r[2 * c + 1] - r[2 * a + 1]];
  const area = e * h - f * g;
  const column = (axis: number) => {
    const u = p[3 * b + axis] - p[3 * a + axis];
    const v = p[3 * c + axis] - p[3 * a + axis];
    return [(u * h - v * f) / area, (v * e - u * g) / area];
  };
  const [[xx, xy], [yx, yy]] = [column(0), column(1)];
  // left Cauchy-Green tensor: its first axis is the direction in the eye
  const [b11, b12, b22] = [xx * xx + xy * xy, xx * yx + xy * yy, yx * yx + yy * yy];
  return 0.5 * Math.atan2(2 * b12, b11 - b22);
}

test('the built-in boards are seven, sound, and each says in words what it shows', () => {
  expect(problems).toEqual([]);
  expect(boards.length).toBe(7);
  for (const { text, title } of boards) {
    expect(title.length).toBeLessThan(60);
    // readable from the back of a room
    expect(text.split(/\s+/).length).toBeLessThan(75);
  }
});

describe('what the boards say', () => {
  test('an uncut capsule is evenly tense, and more than three times as tense with 4 mmHg more behind it', () => {
    const [full, pushed] = playBoard('tense-before-the-cut');
    for (const eye of [full, pushed]) {
      const { tension_mN_per_mm, chamber } = last(eye);
      for (const tension of tension_mN_per_mm)
        expect(Math.abs(tension / chamber.tension_mN_per_mm - 1)).toBeLessThan(0.02);
    }
    const ratio = last(pushed).chamber.tension_mN_per_mm / last(full).chamber.tension_mN_per_mm;
    expect(ratio).toBeGreaterThan(3);
    expect(last(pushed).chamber.netPressure_mmHg - last(full).chamber.netPressure_mmHg).toBeCloseTo(4, 1);
  });

  test('the same slit opens more than twice as wide in the child, and rests', () => {
    const [adult, child] = playBoard('a-slit-opens');
    expect(gape_mm(last(child)) / gape_mm(last(adult))).toBeGreaterThan(2);
    for (const eye of [adult, child]) {
      const half = eye.views[Math.round(2.9 / STEP_S)];
      expect(last(eye).torn_mm).toBe(half.torn_mm);
      for (const tip of last(eye).tips) expect(tip.drivingRatio).toBeLessThan(0.3);
      expect(last(eye).tips.length).toBe(2);
    }
  });

  test('a torn edge carries about twice the tension along itself, at both ages', () => {
    for (const eye of playBoard('twice-along-the-edge')) {
      const edge = alongEdge(eye);
      const ratio = median(edge.map(({ tension }) => tension)) / last(eye).chamber.tension_mN_per_mm;
      expect(ratio).toBeGreaterThan(1.6);
      expect(ratio).toBeLessThan(2.4);
      expect(median(edge.map(({ lean_deg }) => lean_deg))).toBeLessThan(10);
    }
  });

  test('the sheet points outward at both ages and does not move the tear by itself', () => {
    for (const eye of playBoard('the-sheet-points-outward')) {
      const tip = last(eye).tips[0];
      expect(sheetTurn_deg(eye, tip)).toBeGreaterThan(20);
      expect(sheetTurn_deg(eye, tip)).toBeLessThan(70);
      expect(tip.drivingRatio).toBeLessThan(0.8);
      // long enough to be seen: the stage draws the resistance a little over a millimetre long
      expect(tip.drivingRatio).toBeGreaterThan(0.3);
      expect(last(eye).chamber.netPressure_mmHg).toBeCloseTo(8, 1);
    }
  });

  test('a pull straight along the tear takes it outward', () => {
    const [child] = playBoard('the-pull-and-the-sum');
    const start = tornRadius_mm(child.views[0]);
    const radii = child.views.filter(({ tips }) => tips.length > 0).map(tornRadius_mm);
    expect(timeOf(child, 'tear-starts')).toBeLessThan(4);
    expect(radii.at(-1)! / start).toBeGreaterThan(1.1);
    expect(Math.min(...radii) / start).toBeGreaterThan(0.98);
    // while it tears, the sum is what the pull and the sheet are together
    for (const { tips } of child.views.slice(-60)) {
      const { pull_mN, sheet_mN, resultant_mN } = tips[0];
      expect(pull_mN![0] + sheet_mN![0]).toBeCloseTo(resultant_mN[0], 6);
      expect(pull_mN![1] + sheet_mN![1]).toBeCloseTo(resultant_mN[1], 6);
    }
  });

  test('under the same movement the adult tears first, the child stretches more, and its sheet pulls about twice as hard', () => {
    const [adult, child] = playBoard('the-childs-capsule');
    expect(timeOf(child, 'tear-starts') - timeOf(adult, 'tear-starts')).toBeGreaterThan(0.15);
    expect(timeOf(child, 'tear-starts')).toBeLessThan(4);
    const moved = (eye: PlayedEye) => {
      const before = eye.views.findLast((view) => view.torn_mm === eye.views[0].torn_mm)!;
      const [x0, y0] = eye.views[0].tips[0].position_mm;
      const [x, y] = before.tips[0].position_mm;
      return Math.hypot(x - x0, y - y0);
    };
    expect(moved(child) / moved(adult)).toBeGreaterThan(1.3);
    const ratio = size(child.views[0].tips[0].sheet_mN) / size(adult.views[0].tips[0].sheet_mN);
    expect(ratio).toBeGreaterThan(1.7);
    expect(ratio).toBeLessThan(2.6);
    expect(last(adult).chamber.netPressure_mmHg).toBeCloseTo(last(child).chamber.netPressure_mmHg, 1);
  });

  test('led by a hand of its own, the child’s tear needs a pull that leans further to the centre', () => {
    const holds = (age_years: number): number => {
      const options = { preset: 'uniaxial', dyed: false } as const;
      const { holdAngle_deg } = sweepCell({ measure: 'hold-angle', age_years, netPressure_mmHg: 2, options });
      return holdAngle_deg ?? Number.NaN;
    };
    expect(holds(0.5) - holds(40)).toBeGreaterThan(10);
  });

  test('with thin fluid the tear runs out and nobody pulls; with thick fluid it rests', () => {
    const [thick, thin] = playBoard('fluid-holds-it');
    expect(timeOf(thin, 'run-out')).toBeLessThan(boardOf('fluid-holds-it').stopAt_s!);
    for (const eye of [thick, thin]) expect(eye.views.every(({ instrument }) => !instrument.gripping)).toBe(true);
    expect(last(thick).torn_mm).toBe(thick.views[0].torn_mm);
    expect(last(thick).tips[0].drivingRatio).toBeLessThan(0.2);
    const running = thin.views.findLast(({ tips }) => tips.length > 0)!;
    const grown = (view: WorldView) => size(view.tips[0].sheet_mN);
    expect(grown(running) / grown(thin.views[0])).toBeGreaterThan(5);
    // the question comes before anything runs
    expect(timeOf(thin, 'tear-starts')).toBeGreaterThan(1);
  });
});
