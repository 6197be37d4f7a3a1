import {
  type AttemptResult,
  createRandom,
  type Hand,
  runHand,
  type Scenario,
  scaledSizes,
} from '../../../physics/index.ts';

export interface PathCase {
  readonly scenario: string;
  readonly hand: string;
  /** Sizes of the finer mesh over the usual ones, and parts of each of its steps. */
  readonly sizeFactor: number;
  readonly parts: number;
  readonly endedUsual: string;
  readonly endedFine: string;
  /** Farthest that the relaxed torn line of either lies from the other's, mm; null where one left no line. */
  readonly farthest_mm: number | null;
  /** The same of the first half turn of the torn line, in the unloaded disc, mm. */
  readonly halfTurn_mm: number | null;
  /** Equivalent diameters of the two openings, mm; null where there is none. */
  readonly usualDiameter_mm: number | null;
  readonly fineDiameter_mm: number | null;
  /** Whether the path moved by less than 0.05 mm, as is wanted. */
  readonly within: boolean;
  /** The usual mesh again, every node moved by up to half a millionth of a millimetre at the start: how far from the path, and the diameter, mm. */
  readonly shaken: readonly Shaken[];
  /** The farthest of these, mm: a path is not defined any better. Null where one left no line. */
  readonly shakenFarthest_mm: number | null;
}

export interface Shaken {
  readonly seed: number;
  readonly ended: string;
  readonly farthest_mm: number | null;
  readonly halfTurn_mm: number | null;
  readonly diameter_mm: number | null;
}

type Line = readonly (readonly [number, number])[];

const WANTED_mm = 0.05;

function distanceTo(line: Line, [x, y]: readonly [number, number]): number {
  let least = Infinity;
  for (let k = 0; k + 1 < line.length; k++) {
    const [ax, ay] = line[k];
    const [dx, dy] = [line[k + 1][0] - ax, line[k + 1][1] - ay];
    const along = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1);
    const u = Math.min(1, Math.max(0, along));
    least = Math.min(least, Math.hypot(x - ax - u * dx, y - ay - u * dy));
  }
  return least;
}

/** Farthest that a vertex of either line lies from the other line. */
export const farthestBetween = (a: Line, b: Line): number =>
  Math.max(...a.map((place) => distanceTo(b, place)), ...b.map((place) => distanceTo(a, place)));

/** The finished opening, closed, or the torn lines one after the other where there is none. */
function lineOf({ outline_mm, tears }: AttemptResult): Line {
  if (outline_mm) return [...outline_mm, outline_mm[0]];
  return tears.flatMap(({ relaxed_mm }) => relaxed_mm);
}

function farthestOf(usual: AttemptResult, other: AttemptResult): number | null {
  const [a, b] = [lineOf(usual), lineOf(other)];
  return a.length > 1 && b.length > 1 ? farthestBetween(a, b) : null;
}

type Torn = { readonly tears: readonly { readonly reference_mm: Line }[] };

/** The first tear in the unloaded disc, and how many of its vertices lie within its first half turn about the disc's centre. */
function firstTear({ tears }: Torn): { readonly line: Line; readonly half: number } {
  const line = tears[0]?.reference_mm ?? [];
  let turned_rad = 0;
  let half = Math.min(1, line.length);
  while (half < line.length && Math.abs(turned_rad) < Math.PI) {
    const [[ax, ay], [bx, by]] = [line[half - 1], line[half]];
    turned_rad += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    half++;
  }
  return { line, half };
}

/** Farthest that a vertex of either first half turn lies from the other's line, mm. */
export function halfTurnBetween(usual: Torn, other: Torn): number | null {
  const [a, b] = [firstTear(usual), firstTear(other)];
  if (a.line.length < 2 || b.line.length < 2) return null;
  const off = (of: typeof a, from: typeof a) => of.line.slice(0, of.half).map((place) => distanceTo(from.line, place));
  return Math.max(...off(a, b), ...off(b, a));
}

const diameterOf = ({ opening }: AttemptResult): number | null => opening?.equivalentDiameter_mm ?? null;

/** Width within which every coordinate is shaken, mm: a ten-thousandth of what the solver leaves. */
const SHAKE_mm = 1e-6;

function shakenRun(scenario: Scenario, hand: Hand, usual: AttemptResult, seed: number): Shaken {
  const random = createRandom(seed);
  const other = runHand(scenario, hand, {
    begin: ({ x }) => {
      for (let i = 0; i < x.length; i++) x[i] += SHAKE_mm * (random.uniform() - 0.5);
    },
  });
  return {
    seed,
    ended: other.ended,
    farthest_mm: farthestOf(usual, other),
    halfTurn_mm: halfTurnBetween(usual, other),
    diameter_mm: diameterOf(other),
  };
}

function farthestOfAll(shaken: readonly Shaken[]): number | null {
  const all = shaken.flatMap(({ farthest_mm }) => farthest_mm ?? []);
  return all.length > 0 && all.length === shaken.length ? Math.max(...all) : null;
}

/**
 * Plays a hand on the usual mesh and on a finer one with shorter steps, and compares the torn lines; and on the usual mesh with
 * places shaken by nearly nothing, `shakes` times.
 */
export function pathCase(scenario: Scenario, hand: Hand, sizeFactor: number, parts: number, shakes: number): PathCase {
  const usual = runHand(scenario, hand);
  const fine = runHand(scenario, hand, { sizes: scaledSizes(sizeFactor), parts });
  const farthest_mm = farthestOf(usual, fine);
  const shaken = Array.from({ length: shakes }, (_, k) => shakenRun(scenario, hand, usual, k + 1));
  return {
    scenario: scenario.id,
    hand: hand.id,
    sizeFactor,
    parts,
    endedUsual: usual.ended,
    endedFine: fine.ended,
    farthest_mm,
    halfTurn_mm: halfTurnBetween(usual, fine),
    usualDiameter_mm: diameterOf(usual),
    fineDiameter_mm: diameterOf(fine),
    within: usual.ended === fine.ended && farthest_mm !== null && farthest_mm < WANTED_mm,
    shaken,
    shakenFarthest_mm: farthestOfAll(shaken),
  };
}
