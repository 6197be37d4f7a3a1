/** The driving force that a tear would have in each direction: the polar curve of a tip, by virtual extensions. */
import { LARGEST_TURN_deg } from '../tear/law.ts';
import { type ExtensionFan, virtualExtensions } from '../tear/virtual-extension.ts';
import { STEP_S } from './contract.ts';
import { placeGrip } from './grip.ts';
import { createCapsuleBody, setRimAnchors } from './sheet.ts';
import type { Tip, World } from './state.ts';
import { marginTurn } from './tips.ts';

export interface PolarOptions {
  /** Angle between directions, degrees: 10, 15 or 30 are sensible. 15 unless given. */
  readonly spacing_deg?: number;
  /** Farthest direction from the tangent, degrees, up to 150. 105 unless given. */
  readonly reach_deg?: number;
  /** Time that the sheet is given to follow the extension, s. One step of the world unless given; long brings it to rest. */
  readonly time_s?: number;
}

/** Driving force against direction at one tip. All arrays are of equal length, in rising order of turn. */
export interface PolarDrivingForce {
  readonly tipId: number;
  /** Degrees counter-clockwise from +x, eye frame, as `TipView.heading_deg`. */
  readonly direction_deg: readonly number[];
  /** The same as a turn from the present tangent, degrees, positive to the left. */
  readonly turn_deg: readonly number[];
  /** Energy set free per length torn that way, mN. */
  readonly drivingForce_mN: readonly number[];
  /** Where it is largest. */
  readonly best: { readonly direction_deg: number; readonly turn_deg: number; readonly drivingForce_mN: number };
  readonly tearResistance_mN: number;
  /** Farthest that the tip may turn with its next element, degrees. */
  readonly turnLimit_deg: number;
  /** False where some state did not come to rest: then the curve is not to be trusted to the last few per cent. */
  readonly converged: boolean;
}

/** Residual of a state at rest, mN: the energies must be known to a thousandth of what an element sets free. */
const RESIDUAL_mN = 1e-3;

const DEG = 180 / Math.PI;

/**
 * The polar curve of a tip of the present moment, with rim, jaws and pressure held as they are. Does not change the world. Costs a
 * remesh and one equilibrium for each direction: 0.5 to 2 s of a processor for 15 directions; not for every frame.
 *
 * @param tipId `TipView.id`
 * @returns null where there is no such tip, or where nothing can be meshed round it (a tip about to meet a tear)
 */
export function polarDrivingForce(world: World, tipId: number, options: PolarOptions = {}): PolarDrivingForce | null {
  const tip = world.tips.find(({ id }) => id === tipId);
  if (!tip) return null;
  const fan = fanOf(world, tip, options);
  if (fan === null) return null;
  const tangent = tangentInEye_deg(world, tip);
  const { best, turn_deg, drivingForce_mN, converged } = fan;
  return {
    tipId,
    direction_deg: turn_deg.map((turn) => tangent + turn),
    turn_deg,
    drivingForce_mN,
    best: { direction_deg: tangent + best.turn_deg, ...best },
    tearResistance_mN: world.frame.eye.tearResistance_mN,
    turnLimit_deg: LARGEST_TURN_deg,
    converged,
  };
}

function fanOf(world: World, tip: Tip, options: PolarOptions): ExtensionFan | null {
  const { frame, tears, grip, sizes, mesh, x, chamber, scenario, material } = world;
  const request = {
    radius_mm: frame.referenceRadius_mm,
    tears,
    grips: grip ? [grip.reference] : [],
    sizes,
  };
  const bodyOn = (next: typeof mesh) => {
    const body = createCapsuleBody(frame, next, material, chamber.fluid, scenario.eye.weakZonule);
    setRimAnchors(frame, next, body, chamber.tension_mN_per_mm);
    // a grip of its own: the one in the world keeps its nodes
    if (grip) placeGrip({ ...world, mesh: next, body }, { ...grip });
    return body;
  };
  const { spacing_deg = 15, reach_deg = 105, time_s = STEP_S } = options;
  const fan = { extension_mm: sizes.tip_mm, span_mm: 0, tolerance_mN: RESIDUAL_mN, spacing_deg, reach_deg, time_s };
  try {
    return virtualExtensions({ request, tip: tip.ref, mesh, x, bodyOn }, fan);
  } catch {
    return null;
  }
}

/** Direction of the tear's last element in the eye, degrees. */
function tangentInEye_deg(world: World, tip: Tip): number {
  const { points } = tip.ref.tear;
  const n = points.length;
  const [dx, dy] = tip.ref.atEnd
    ? [points[n - 2] - points[n - 4], points[n - 1] - points[n - 3]]
    : [points[0] - points[2], points[1] - points[3]];
  return (Math.atan2(dy, dx) + marginTurn(world, tip)) * DEG;
}
