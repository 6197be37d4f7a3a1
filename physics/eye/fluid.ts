import { power } from '../core/elementary/power.ts';
import type { FluidId } from '../scenario/scenario.ts';

/**
 * What fills the anterior chamber. Viscosities are recalled from the literature on ophthalmic viscosurgical devices
 * and not read again: a factor of three either way is possible, and concentration alone does not fix them
 * (molecular weight matters as much, Calciu-Rusu 2007).
 */
export interface Fluid {
  readonly id: FluidId;
  readonly label: string;
  /** At rest. */
  readonly zeroShearViscosity_Pa_s: number;
  /** At a shear rate of 1/s, that of a flap moved at 1 mm/s through a layer of 1 mm. */
  readonly viscosity_Pa_s: number;
  /** Published span at 1/s as recalled. */
  readonly viscosityRange_Pa_s: readonly [number, number];
}

const FLUIDS: Readonly<Record<FluidId, Fluid>> = {
  // water at body temperature, handbook 0.69 mPa s; balanced salt solution a little above
  saline: fluid('saline', 'Balanced salt solution', 0.001, 0.001, [0.0007, 0.0012]),
  'hpmc-2': fluid('hpmc-2', 'Hydroxypropyl methylcellulose 2 %', 5, 4, [3, 5]),
  'ha-1.0': fluid('ha-1.0', 'Sodium hyaluronate 1.0 %, high molecular weight', 250, 71, [50, 100]),
  'ha-1.4': fluid('ha-1.4', 'Sodium hyaluronate 1.4 %', 1400, 141, [100, 200]),
  'ha-1.8': fluid('ha-1.8', 'Sodium hyaluronate 1.8 %', 316, 87, [50, 150]),
  'ha-2.3': fluid('ha-2.3', 'Sodium hyaluronate 2.3 %', 5300, 424, [300, 600]),
  'ha-3.0': fluid('ha-3.0', 'Sodium hyaluronate 3.0 %, low molecular weight', 110, 55, [30, 100]),
};

/** Values are the geometric middles of the recalled spans. */
function fluid(
  id: FluidId,
  label: string,
  zeroShearViscosity_Pa_s: number,
  viscosity_Pa_s: number,
  viscosityRange_Pa_s: readonly [number, number],
): Fluid {
  return { id, label, zeroShearViscosity_Pa_s, viscosity_Pa_s, viscosityRange_Pa_s };
}

export const FLUID_IDS = Object.keys(FLUIDS) as readonly FluidId[];

/** Viscosities of a fluid, from memory (factor three). */
export const fluidById = (id: FluidId): Fluid => FLUIDS[id];

/** Layer of fluid that a moving flap shears. Assumed; 0.5 to 3 mm, the depth of a filled chamber. */
const SHEARED_LAYER_mm = 1;

/**
 * Drag per area of membrane below which the motion would no longer be overdamped. Assumed: a fortieth of that of HPMC
 * 2 %, 0.0001 to 0.004; at 2 mm/s over 4 mm^2 it is under 0.001 mN, far below any force that is shown.
 */
const SMALLEST_DRAG_mN_s_per_mm3 = 1e-4;

/**
 * Viscous drag on the membrane per area and speed: viscosity over the sheared layer. 1 Pa is 1e-3 mN/mm^2, so
 * 1 Pa s over 1 mm is 1e-3 mN s/mm^3.
 *
 * @returns mN s/mm^3, never below the floor above
 */
export function dragPerArea_mN_s_per_mm3(id: FluidId): number {
  return Math.max(SMALLEST_DRAG_mN_s_per_mm3, (1e-3 * FLUIDS[id].viscosity_Pa_s) / SHEARED_LAYER_mm);
}

/** Time in which water loses most of its excess pressure through a closed but unsutured incision. Assumed, 2 to 20 s. */
const WATER_LEAK_s = 6;
const WATER_VISCOSITY_Pa_s = 0.001;

/**
 * How the leak slows with viscosity. The flow through a wound goes as one over the viscosity at the wound's own shear
 * rate, thousands of times that of the chamber, where thick fluids have thinned to a few times one another.
 * Assumed 0.35, 0.2 to 0.5: saline then holds seconds, hyaluronate 2.3 % about ten minutes.
 */
const LEAK_EXPONENT = 0.35;

/** Leak time with all wounds closed; range a factor of three either way. Seconds. Assumed. */
export function closedLeakTime_s(id: FluidId): number {
  return WATER_LEAK_s * power(FLUIDS[id].viscosity_Pa_s / WATER_VISCOSITY_Pa_s, LEAK_EXPONENT);
}

/** An instrument in the wound holds it open: the leak is this much faster. Assumed, 2 to 6. */
const INSTRUMENT_LEAK_FACTOR = 3;

/**
 * A shaft that presses on the side of its incision instead of turning in it gapes the wound. Common teaching, no
 * number published: assumed 0.05 per mN (0.02 to 0.2), so that 20 mN, about twice the force at the flap, doubles the leak.
 */
const SIDE_LOAD_LEAK_per_mN = 0.05;

/**
 * Time constant of the chamber's leak, seconds.
 *
 * @param instrumentIn whether a shaft lies in the wound
 * @param sideLoad_mN force of the shaft on the side of the wound, 0 or more; counts only with a shaft in the wound
 */
export function leakTime_s(id: FluidId, instrumentIn: boolean, sideLoad_mN: number): number {
  if (!instrumentIn) return closedLeakTime_s(id);
  const gape = 1 + SIDE_LOAD_LEAK_per_mN * Math.max(0, sideLoad_mN);
  return closedLeakTime_s(id) / (INSTRUMENT_LEAK_FACTOR * gape);
}
