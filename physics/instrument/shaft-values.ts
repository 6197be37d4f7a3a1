/*
 * Values of the shaft, the hand and the incision. None is published for this use: all are assumed, chosen so that the tip follows a
 * careful hand within a few hundredths of a millimetre, and each has a range in which the behaviour stays sensible.
 * Units mm, s, mN; mass in mN s^2/mm, which is kg.
 */

/** From tip to the place where the fingers hold, mm. Assumed, 30-60. */
export const SHAFT_LENGTH_mm = 40;
/** Diameter of the shaft, mm. Assumed, 0.3-1. */
export const SHAFT_WIDTH_mm = 0.6;
/** Instrument with the fingers that move along with it. Assumed, 0.015-0.1 kg. */
export const SHAFT_MASS_kg = 0.04;

/** Stiffness of the hold, between the hand's intent and the handle. Assumed, 60-200 mN/mm. */
export const HAND_STIFFNESS_mN_per_mm = 120;
/**
 * Damping of the hold. Assumed, 2-6 mN s/mm. Over the stiffness it gives about 30 ms, in which fingers yield to a changed load;
 * it also keeps the exchange of forces with a membrane stiffer than the hand calm.
 */
export const HAND_DAMPING_mN_s_per_mm = 4;
/** Fingers do not push harder than this. Assumed, 300-2000 mN. */
export const HAND_FORCE_LIMIT_mN = 1000;

/** Stiffness of the incision's sides against a shaft that presses on them. Assumed, 30-600 mN/mm. */
export const INCISION_STIFFNESS_mN_per_mm = 150;
/** Damping of the incision's sides. Assumed, 0.5-4 mN s/mm. */
export const INCISION_DAMPING_mN_s_per_mm = 2;
/** Rubbing of the shaft that slides through the incision. Assumed viscous, 0-2 mN s/mm. */
export const INCISION_RUBBING_mN_s_per_mm = 0.3;
/** The incision lets the shaft turn this far off its radius. Assumed, 45-70 degrees. */
export const INCISION_TURN_deg = 60;
/** Couple of the incision on a shaft turned too far, and its damping; stiff enough to stop a hand within half a degree. */
export const TURN_STOP_mN_mm_per_rad = 1e6;
export const TURN_STOP_mN_mm_s_per_rad = 2e3;

/** Drag of the chamber's fluid on the part of the shaft inside. Assumed, 0.02 (thin) to 2 (thick) mN s/mm. */
export const FLUID_DRAG_mN_s_per_mm = 0.3;

/** Push of the iris margin on a low tip that leaves the pupil, and its limit. Assumed, 2-40 mN/mm and 10-60 mN. */
export const IRIS_STIFFNESS_mN_per_mm = 10;
export const IRIS_FORCE_LIMIT_mN = 20;
/** A tip above this passes over the iris, mm. Assumed, 0.5-2. */
export const IRIS_HEIGHT_mm = 1;

/**
 * Push of the chamber's wall on a tip that has got to the part of it left open for the shaft.
 * Assumed, 200-2000 mN/mm: stiff beside the hand.
 */
export const WALL_STIFFNESS_mN_per_mm = 600;
export const WALL_DAMPING_mN_s_per_mm = 4;

/** Stiffness and delay of raising and lowering. Assumed, 30-120 mN/mm, 20-50 ms. */
export const LIFT_STIFFNESS_mN_per_mm = 60;
export const LIFT_DELAY_s = 0.03;
export const LIFT_LIMIT_mm = 3;

/** Hands ask at most this far from the centre, mm. */
export const ASK_LIMIT_mm = 20;
/** The shaft stays at least this far in, mm, so that its direction is always defined. */
export const LEAST_INSIDE_mm = 0.5;
/** How far a hand that asks for more than reach still presses on, mm. */
export const PRESS_LIMIT_mm = 1;
