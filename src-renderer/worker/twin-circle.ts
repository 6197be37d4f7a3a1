import type { TipView, Vec2, WorldView } from '../../physics/index.ts';

/** Length of torn margin over which its turn between the unloaded disc and the eye is read, mm: as the world does. */
const CHORD_mm = 0.48;
const DEG = 180 / Math.PI;

/** Where a place of the unloaded disc lies in the living eye before any cut. */
export interface LivingEye {
  /** mm in the living eye per mm in the unloaded disc. */
  readonly stretch: number;
  readonly lensCentre_mm: Vec2;
  readonly targetCentre_mm: Vec2;
}

/**
 * How a tip lies to the circle about the target's centre that passes through it, judged where tissue was before any cut:
 * a pulled flap carries the tip about by a millimetre, and neither its radius nor the circle's direction should follow.
 */
export interface TipOnCircle {
  readonly radius_mm: number;
  /** Of the tip round the target's centre, degrees counter-clockwise from +x. */
  readonly angle_deg: number;
  /** 1 where the tear goes round counter-clockwise, -1 where it goes clockwise. */
  readonly way: 1 | -1;
  /** Direction of the circle, the way the tear goes, as it is seen in the eye now, degrees counter-clockwise from +x. */
  readonly along_deg: number;
  /** Direction away from the centre as it is seen in the eye now. */
  readonly outward_deg: number;
  /** Heading of the tear less the direction of the circle, degrees, positive outward; -180 to 180. */
  readonly headingError_deg: number;
}

/** Null where the tip lies in the centre itself. */
export function tipOnCircle(view: WorldView, tip: TipView, eye: LivingEye): TipOnCircle | null {
  const x = eye.lensCentre_mm[0] + eye.stretch * tip.reference_mm[0] - eye.targetCentre_mm[0];
  const y = eye.lensCentre_mm[1] + eye.stretch * tip.reference_mm[1] - eye.targetCentre_mm[1];
  const radius_mm = Math.hypot(x, y);
  if (!(radius_mm > 1e-6)) return null;
  const angle_deg = Math.atan2(y, x) * DEG;
  // the tear's own directions are carried from the unloaded disc into the eye by this turn; so must the circle's be
  const turn_deg = marginTurn_deg(view, tip);
  const outward_deg = angle_deg + turn_deg;
  const way = wrapped(tip.tangent_deg - outward_deg) >= 0 ? 1 : -1;
  const along_deg = outward_deg + 90 * way;
  const headingError_deg = -way * wrapped(tip.heading_deg - along_deg);
  return {
    radius_mm,
    angle_deg,
    way,
    along_deg: wrapped(along_deg),
    outward_deg: wrapped(outward_deg),
    headingError_deg,
  };
}

/** The same direction between -180 (exclusive) and 180 degrees. */
export function wrapped(degrees: number): number {
  const turned = degrees - 360 * Math.floor(degrees / 360);
  return turned > 180 ? turned - 360 : turned;
}

/** Turn of the outer torn margin at a tip between the unloaded disc and the eye, degrees. 0 where nothing is torn yet. */
function marginTurn_deg(view: WorldView, tip: TipView): number {
  const run = outerRun(view, tip);
  if (run === null) return 0;
  const [ex, ey] = chord(view.position_mm, 3, run);
  const [rx, ry] = chord(view.reference_mm, 2, run);
  return Math.atan2(rx * ey - ry * ex, rx * ex + ry * ey) * DEG;
}

/** The tip's node, and the node of the outer margin about half a millimetre behind it. */
function outerRun({ margins, tearPath_mm, reference_mm, position_mm }: WorldView, tip: TipView): Vec2 | null {
  for (const margin of margins) {
    const ends = [margin, [...margin].reverse()];
    for (const run of ends) {
      const end = run[run.length - 1];
      if (end === undefined || run.length < 2 || !near(reference_mm, 2, end, tip.reference_mm)) continue;
      const next = run[run.length - 2]!;
      const isOuter = tearPath_mm.some((path) => passes(path, position_mm[3 * next]!, position_mm[3 * next + 1]!));
      if (isOuter) return [end, behind(reference_mm, run, end)];
    }
  }
  return null;
}

function behind(reference: Float32Array, run: ArrayLike<number>, end: number): number {
  let k = run.length - 2;
  while (k > 0 && Math.hypot(...chord(reference, 2, [end, run[k]!])) < CHORD_mm) k--;
  return run[k]!;
}

const chord = (place: Float32Array, stride: number, [end, back]: Vec2): Vec2 => [
  place[stride * end]! - place[stride * back]!,
  place[stride * end + 1]! - place[stride * back + 1]!,
];

const near = (place: Float32Array, stride: number, node: number, [x, y]: Vec2): boolean =>
  Math.hypot(place[stride * node]! - x, place[stride * node + 1]! - y) < 1e-3;

/** Whether a line of x,y pairs has a point there: the two sides of a tear lie apart, so this tells them from each other. */
function passes(path: Float32Array, x: number, y: number): boolean {
  for (let k = 0; k + 1 < path.length; k += 2) if (path[k] === x && path[k + 1] === y) return true;
  return false;
}
