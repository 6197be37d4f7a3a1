/**
 * Virtual trainees: a stated population of guided hands with seeded noise. One seed is one person, and the same person works
 * in every eye, so that eyes and fluids are compared by the same hands. Nothing here is fitted to an outcome.
 */
import { exp } from '../core/elementary/exponential.ts';
import { createRandom, type Random } from '../core/random.ts';
import type { GuidedHand } from '../scenario/hand.ts';

/** What differs between trainees, and within one from pull to pull. All normal; spreads are standard deviations. */
export interface TraineePopulation {
  /** Pull angle meant, from the tangent toward the centre, degrees. Assumed 40, 30 to 50: between the angles that hold an adult's and a child's circle. */
  readonly pullAngle_deg: number;
  /** A person's own bias of that angle, degrees. Assumed 8, 4 to 15. */
  readonly ownAngleSpread_deg: number;
  /** Error of the angle, drawn anew after each stretch of arc, degrees. Assumed 15, 8 to 25. */
  readonly angleSpread_deg: number;
  /** The stretch of arc, degrees. Assumed 15, 10 to 30: about a second and a half of tearing. */
  readonly angleEvery_deg: number;
  /** How strongly the distance from the line is corrected, degrees per mm. Assumed 60, 30 to 90. */
  readonly gain_deg_per_mm: number;
  /** Speed of the hand, mm/s. Assumed 1, 0.5 to 2. */
  readonly speed_mm_per_s: number;
  /** Arc after which the hand means to grasp anew, degrees; common teaching is every one or two clock hours in a child. */
  readonly regraspEvery_deg: number;
  /** How late it does, as the spread of the logarithm, only ever later. Assumed 0.4, 0.2 to 0.8. */
  readonly lateSpread: number;
  /** Where the flap is grasped, mm. Assumed 0.6 behind, 0.4 inside. */
  readonly graspBehind_mm: number;
  readonly graspInside_mm: number;
  /** Spread of the logarithms of gain, speed and both grasp lengths from person to person. Assumed 0.3, 0.15 to 0.5. */
  readonly logSpread: number;
  /** RMS tremor, micrometres: novices with the force-sensing forceps, 59 across, 20.6 along (literature in references.md). */
  readonly tremor: { readonly across_um: number; readonly along_um: number };
}

/** The population of all rates given by this program. */
export const TRAINEES: TraineePopulation = {
  pullAngle_deg: 40,
  ownAngleSpread_deg: 8,
  angleSpread_deg: 15,
  angleEvery_deg: 15,
  gain_deg_per_mm: 60,
  speed_mm_per_s: 1,
  regraspEvery_deg: 45,
  lateSpread: 0.4,
  graspBehind_mm: 0.6,
  graspInside_mm: 0.4,
  logSpread: 0.3,
  tremor: { across_um: 59, along_um: 20.6 },
};

/** No draw goes farther out than this many standard deviations, so that every hand is within what a hand file allows. */
const FARTHEST = 2.5;
/** Angles a person would pull at, degrees from the tangent: not backward. Assumed. */
const ANGLES_deg = { least: -30, most: 120 } as const;
/** Arc for which errors are drawn, degrees: more than once round. */
const WHOLE_deg = 420;

const drawn = (random: Random): number => Math.max(-FARTHEST, Math.min(FARTHEST, random.normal()));

/**
 * The hand of one trainee.
 *
 * @param seed of the person, unsigned 32-bit
 * @param lineDiameter_mm the line the person means to follow, mm
 */
export function traineeHand(seed: number, lineDiameter_mm: number, of: TraineePopulation = TRAINEES): GuidedHand {
  const random = createRandom(seed);
  const about = (value: number) => value * exp(of.logSpread * drawn(random));
  const own_deg = of.pullAngle_deg + of.ownAngleSpread_deg * drawn(random);
  const speed_mm_per_s = about(of.speed_mm_per_s);
  const gain_deg_per_mm = about(of.gain_deg_per_mm);
  const graspBehind_mm = about(of.graspBehind_mm);
  const graspInside_mm = about(of.graspInside_mm);
  const regraspEvery_deg = of.regraspEvery_deg * exp(of.lateSpread * Math.abs(drawn(random)));
  const pullAngle_deg: [number, number][] = [];
  for (let arc = 0; arc <= WHOLE_deg; arc += of.angleEvery_deg) {
    pullAngle_deg.push([arc, own_deg + of.angleSpread_deg * drawn(random)]);
  }
  return {
    rimwardHand: 1,
    kind: 'guided',
    id: `trainee-${seed}`,
    title: `Virtual trainee ${seed}`,
    start: 'flap',
    pullAngle_deg,
    speed_mm_per_s,
    regraspEvery_deg,
    graspBehind_mm,
    graspInside_mm,
    fold: true,
    tremor: of.tremor,
    follow: {
      diameter_mm: lineDiameter_mm,
      gain_deg_per_mm,
      minAngle_deg: ANGLES_deg.least,
      maxAngle_deg: ANGLES_deg.most,
    },
  };
}
