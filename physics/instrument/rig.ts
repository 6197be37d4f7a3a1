import { cos, sin } from '../core/elementary/circular.ts';
import { exp } from '../core/elementary/exponential.ts';
import { hypot } from '../core/elementary/hypot.ts';
import type { HandCommand, Vec2 } from '../world/contract.ts';
import { chamberWall, wallRadius } from './chamber-wall.ts';
import type { InstrumentPose, InstrumentRig, InstrumentSite } from './contract.ts';
import { type Reach, reachOf } from './reach.ts';
import { advanceShaft, createShaft, pushShaft, type Shaft, shaftPoint } from './shaft.ts';
import { fluidPush, handPush, incisionPush, irisPush, wallPush } from './shaft-forces.ts';
import * as value from './shaft-values.ts';

/** Longest sub-step, s: a tenth of the shortest period of the springs. */
const SUBSTEP_s = 1 / 960;
/** The membrane's force is taken up to this, mN: above the 65-150 mN at which whole rims were seen to rupture. */
const REACTION_LIMIT_mN = 300;
/** Off by more than this from where it is asked to be, by reach alone, a tip counts as limited, mm. */
const REACH_TOLERANCE_mm = 0.02;

interface Seat {
  readonly shaft: Shaft;
  readonly fulcrum_mm: Vec2;
  readonly key: string;
  /** Where the hand holds the handle at the end of the last step, mm. */
  handle_mm: Vec2;
}

/**
 * A rigid shaft through an incision, moved by a hand outside.
 *
 * The hand takes the handle to the line from the asked tip through the incision, so that a shaft without load turns in the
 * incision and does not press on it. What presses (side load) is the load at the tip by its lever, and a hand that wants more than
 * the incision's reach. Changing the instrument or the incision withdraws the shaft and enters it again, at rest, at the nearest
 * reach of the asked place. Lift is a separate, overdamped motion. Any finite command gives a finite pose; the same
 * commands and reactions give the same poses to the bit.
 */
export function createInstrumentRig(site: InstrumentSite): InstrumentRig {
  const wall = wallRadius(site.limbusDiameter_mm);
  let seat: Seat | null = null;
  let lift_mm = value.LIFT_LIMIT_mm;
  let pose: InstrumentPose = restingPose(site, wall);

  function enter(command: HandCommand, incision: number, reach: Reach, key: string): Seat {
    const fulcrum_mm = site.incisions[incision].position_mm;
    lift_mm = clamp(command.lift_mm, 0, value.LIFT_LIMIT_mm);
    const size = { length_mm: value.SHAFT_LENGTH_mm, width_mm: value.SHAFT_WIDTH_mm, mass_kg: value.SHAFT_MASS_kg };
    const shaft = createShaft(reach.tip_mm, reach.shaft_rad, size, chamberWall(site.limbusDiameter_mm, fulcrum_mm));
    return { shaft, fulcrum_mm, key, handle_mm: shaftPoint(shaft, value.SHAFT_LENGTH_mm) };
  }

  return {
    pose: () => pose,
    step(command, reaction_mN, dt_s) {
      const incision = clamp(Math.trunc(command.incision), 0, site.incisions.length - 1);
      const reach = reachOf([command.x_mm, command.y_mm], site.incisions[incision].position_mm, wall);
      const key = `${command.instrument} ${incision}`;
      if (seat === null || seat.key !== key) seat = enter(command, incision, reach, key);
      const reaction = limited(reaction_mN);
      const sideLoad_mN = moveShaft(seat, site, reach, [reaction[0], reaction[1]], lift_mm, dt_s);
      lift_mm = movedLift(lift_mm, command.lift_mm, reaction[2], dt_s);
      const [x, y] = shaftPoint(seat.shaft, 0);
      const shaft_deg = (seat.shaft.body.angle * 180) / Math.PI;
      pose = { tip_mm: [x, y, lift_mm], shaft_deg, sideLoad_mN, reachLimited: reach.missed_mm > REACH_TOLERANCE_mm };
      return pose;
    },
  };
}

/** Sub-steps of the shaft over one step, the hand moving evenly to its new place. Returns the last side load, mN. */
function moveShaft(
  seat: Seat,
  site: InstrumentSite,
  reach: Reach,
  reaction: Vec2,
  lift_mm: number,
  dt_s: number,
): number {
  const { shaft, fulcrum_mm } = seat;
  const from = seat.handle_mm;
  const to = handlePlace(reach, fulcrum_mm);
  const count = Math.max(Math.ceil(dt_s / SUBSTEP_s - 1e-9), 1);
  const substep_s = dt_s / count;
  const handVelocity: Vec2 = [(to[0] - from[0]) / dt_s, (to[1] - from[1]) / dt_s];
  let sideLoad_mN = 0;
  for (let k = 1; k <= count; k++) {
    const share = k / count;
    const handle: Vec2 = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
    handPush(shaft, handle, handVelocity, substep_s);
    sideLoad_mN = incisionPush(shaft, fulcrum_mm, substep_s);
    fluidPush(shaft, fulcrum_mm, site.fluidDrag_mN_s_per_mm ?? value.FLUID_DRAG_mN_s_per_mm, substep_s);
    irisPush(shaft, site, lift_mm);
    wallPush(shaft, wallRadius(site.limbusDiameter_mm), substep_s);
    pushShaft(shaft, shaftPoint(shaft, 0), reaction);
    advanceShaft(shaft, substep_s);
  }
  seat.handle_mm = to;
  return sideLoad_mN;
}

/** Where the hand takes the handle for a reach: back along the shaft, and aside or onward by what it presses beyond reach. */
function handlePlace(reach: Reach, fulcrum_mm: Vec2): Vec2 {
  const outside = value.SHAFT_LENGTH_mm - reach.inside_mm - reach.wallPress_mm;
  const angle = reach.shaft_rad + reach.turnPress_mm / outside;
  return [fulcrum_mm[0] - outside * cos(angle), fulcrum_mm[1] - outside * sin(angle)];
}

/** Overdamped rise or fall towards the asked lift, given way by the load's weight on the hand; exact over the step. */
function movedLift(lift_mm: number, asked_mm: number, load_mN: number, dt_s: number): number {
  const goal = clamp(asked_mm, 0, value.LIFT_LIMIT_mm) + load_mN / value.LIFT_STIFFNESS_mN_per_mm;
  const moved = lift_mm + (goal - lift_mm) * (1 - exp(-dt_s / value.LIFT_DELAY_s));
  return clamp(moved, 0, value.LIFT_LIMIT_mm);
}

/** Before the first command: high, just inside the first incision. */
function restingPose(site: InstrumentSite, wall: number): InstrumentPose {
  const fulcrum = site.incisions[0].position_mm;
  const { tip_mm, shaft_rad } = reachOf(fulcrum, fulcrum, wall);
  return {
    tip_mm: [tip_mm[0], tip_mm[1], value.LIFT_LIMIT_mm],
    shaft_deg: (shaft_rad * 180) / Math.PI,
    sideLoad_mN: 0,
    reachLimited: false,
  };
}

const clamp = (number: number, low: number, high: number) => Math.min(Math.max(number, low), high);

function limited(force: readonly [number, number, number]): readonly [number, number, number] {
  const size = hypot(...force);
  const scale = size > REACTION_LIMIT_mN ? REACTION_LIMIT_mN / size : 1;
  return [force[0] * scale, force[1] * scale, force[2] * scale];
}
