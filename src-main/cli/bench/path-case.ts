import { type AttemptResult, type Hand, runHand, type Scenario, scaledSizes } from '../../../physics/index.ts';

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
  /** Equivalent diameters of the two openings, mm; null where there is none. */
  readonly usualDiameter_mm: number | null;
  readonly fineDiameter_mm: number | null;
  /** Whether the path moved by less than 0.05 mm, as is wanted. */
  readonly within: boolean;
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

/** Plays a hand on the usual mesh and on a finer one with shorter steps, and compares the torn lines. */
export function pathCase(scenario: Scenario, hand: Hand, sizeFactor: number, parts: number): PathCase {
  const usual = runHand(scenario, hand);
  const fine = runHand(scenario, hand, { sizes: scaledSizes(sizeFactor), parts });
  const [a, b] = [lineOf(usual), lineOf(fine)];
  const farthest_mm = a.length > 1 && b.length > 1 ? farthestBetween(a, b) : null;
  return {
    scenario: scenario.id,
    hand: hand.id,
    sizeFactor,
    parts,
    endedUsual: usual.ended,
    endedFine: fine.ended,
    farthest_mm,
    usualDiameter_mm: usual.opening?.equivalentDiameter_mm ?? null,
    fineDiameter_mm: fine.opening?.equivalentDiameter_mm ?? null,
    within: usual.ended === fine.ended && farthest_mm !== null && farthest_mm < WANTED_mm,
  };
}
