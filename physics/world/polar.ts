/** The driving force that a tear would have in each direction: the polar curve of a tip, by virtual extensions. */
import { hypot } from '../core/elementary/hypot.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { Unmeshable } from '../core/unmeshable.ts';
import { tipFrame } from '../mesh/tear-line.ts';
import { LARGEST_TURN_deg } from '../tear/law.ts';
import { type ExtensionFan, virtualExtensions } from '../tear/virtual-extension.ts';
import { STEP_S } from './contract.ts';
import { placeGrip } from './grip.ts';
import { createCapsuleBody, setRimAnchors } from './sheet.ts';
import type { Tip, World } from './state.ts';
import { marginTurn } from './tips.ts';

export interface PolarOptions {
  /** Angle between directions, degrees: a divisor of 150, 5 to 15. 15 unless given. */
  readonly spacing_deg?: number;
  /** Farthest direction from the tangent, degrees, up to 150. 105 unless given. */
  readonly reach_deg?: number;
  /** Time that the sheet is given to follow the extension, s. One step of the world unless given; long brings it to rest. */
  readonly time_s?: number;
  /** 'peak' tries only as many directions as are needed to find the best, about a third. 'all' unless given. */
  readonly fan?: 'all' | 'peak';
  /** Length of the extension in the unloaded disc, mm. The length of an advance unless given. */
  readonly extension_mm?: number;
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
  /** Configurational force on the same mesh at the same rest, as a turn from the tangent and its size. */
  readonly vector: { readonly turn_deg: number; readonly drivingForce_mN: number };
  readonly tearResistance_mN: number;
  /** Farthest that the tip may turn with its next element, degrees. */
  readonly turnLimit_deg: number;
  /** False where some state did not come to rest: then the curve is not to be trusted to the last few per cent. */
  readonly converged: boolean;
}

/** Residual of a state at rest, mN: the energies that differ are then known to a hundredth; tighter changed the best by less than a degree. */
const RESIDUAL_mN = 5e-3;

const DEG = 180 / Math.PI;

/**
 * The polar curve of a tip of the present moment, with rim, jaws and pressure held as they are. Does not change the world. Costs a
 * remesh and one equilibrium for each direction: 0.5 to 1.5 s of a processor for 15 directions; not for every frame.
 *
 * @param tipId `TipView.id`
 * @returns null where there is no such tip, or where nothing can be meshed round it (a tip about to meet a tear)
 */
export function polarDrivingForce(world: World, tipId: number, options: PolarOptions = {}): PolarDrivingForce | null {
  const tip = world.tips.find(({ id }) => id === tipId);
  if (!tip) return null;
  const fan = fanOf(world, tip, options);
  if (fan === null) return null;
  const { tx, ty } = tipFrame(tip.ref);
  const tangent = (atan2(ty, tx) + marginTurn(world, tip)) * DEG;
  const { best, turn_deg, drivingForce_mN, force_mN, converged } = fan;
  const [fx, fy] = force_mN;
  const vectorTurn = atan2(tx * fy - ty * fx, tx * fx + ty * fy) * DEG;
  return {
    tipId,
    direction_deg: turn_deg.map((turn) => tangent + turn),
    turn_deg,
    drivingForce_mN,
    best: { direction_deg: tangent + best.turn_deg, ...best },
    vector: { turn_deg: vectorTurn, drivingForce_mN: hypot(fx, fy) },
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
  const { spacing_deg = 15, reach_deg = 105, time_s = STEP_S, extension_mm = sizes.tip_mm, fan = 'all' } = options;
  const asked = { fan, extension_mm, span_mm: 0, tolerance_mN: RESIDUAL_mN, spacing_deg, reach_deg, time_s };
  try {
    return virtualExtensions({ request, tip: tip.ref, mesh, x, bodyOn }, asked);
  } catch (fault) {
    if (fault instanceof Unmeshable) return null;
    throw fault;
  }
}
