/** What a guided hand keeps in mind between two looks. */
import { createTremor, type Tremor } from '../core/tremor.ts';
import { STEP_S, type Vec2, type WorldView } from '../world/contract.ts';
import type { ArcFunction, GuidedHand } from './hand.ts';
import { cutWay } from './needle-way.ts';

export type Doing =
  | 'cutting'
  | 'reaching'
  | 'closing'
  | 'laying-over'
  | 'pulling'
  | 'opening'
  | 'refilling'
  | 'resting';

/** What the hand has seen of one tip. */
export interface TipTrack {
  /** Arc torn by the tip about the centre, degrees, in the sense in which it runs. */
  arc_deg: number;
  lastAngle: number | null;
  /** +1 when the tear goes round counter-clockwise. */
  readonly sense: 1 | -1;
  /** Distance of the tip from the centre when it was last seen without a pull, mm. */
  restRadius_mm: number;
  /** Where the tip was last seen, reference disc, mm. */
  seen_mm: Vec2;
}

export interface GuidedState {
  readonly hand: GuidedHand;
  readonly shake: { readonly along: Tremor; readonly across: Tremor } | null;
  readonly centre_mm: Vec2;
  /** Radius of the planned line, mm. */
  readonly line_mm: number;
  /** Way of the needle still to go, eye frame. */
  cut: Vec2[];
  doing: Doing;
  since_step: number;
  /** Where the hand asks the tip to be, before tremor. */
  asked: [number, number, number];
  /** Distance of the asked place from the tear's tip while pulling, mm. */
  reach_mm: number;
  /** The tip that is worked on, and all that have been seen. */
  tip: number | null;
  readonly tracks: Map<number, TipTrack>;
  /** Middles of the nicks as they were cut, by their first tip, reference disc, mm. */
  readonly nickStarts: Map<number, Vec2>;
  /** Where the tears of two nicks first met, reference disc, mm. */
  met_mm: Vec2 | null;
  arcAtGrasp_deg: number;
  /** All that was torn when the flap was last grasped, mm. */
  tornAtGrasp_mm: number;
  /** Whether the chamber has been filled for a rescue. */
  filled: boolean;
}

export const DEG = Math.PI / 180;
/** Sets the two tremors' seeds apart. */
const ACROSS_SEED = 0x5bd1e995;

/**
 * @param seed of the tremor
 * @param centre_mm centre of the planned line, eye frame
 * @param line_mm radius of the planned line
 */
export function createGuided(hand: GuidedHand, seed: number, centre_mm: Vec2, line_mm: number): GuidedState {
  const { tremor } = hand;
  return {
    hand,
    shake: tremor
      ? {
          along: createTremor(seed, tremor.along_um / 1000, STEP_S),
          across: createTremor(seed ^ ACROSS_SEED, tremor.across_um / 1000, STEP_S),
        }
      : null,
    centre_mm,
    line_mm,
    cut: hand.start === 'needle' ? cutWay(hand, centre_mm, line_mm) : [],
    doing: hand.start === 'needle' ? 'cutting' : 'reaching',
    since_step: 0,
    asked: [centre_mm[0], centre_mm[1], 1],
    reach_mm: 0,
    tip: null,
    tracks: new Map(),
    nickStarts: new Map(),
    met_mm: null,
    arcAtGrasp_deg: 0,
    tornAtGrasp_mm: 0,
    filled: false,
  };
}

/** Value of a number or of points [arc_deg, value] at an arc; the first and last values are held beyond the points. */
export function arcValue(value: ArcFunction, arc_deg: number): number {
  if (typeof value === 'number') return value;
  let k = 0;
  while (k + 1 < value.length && value[k + 1][0] <= arc_deg) k++;
  const [a0, v0] = value[k];
  if (k + 1 >= value.length || arc_deg <= a0) return v0;
  const [a1, v1] = value[k + 1];
  return v0 + ((v1 - v0) * (arc_deg - a0)) / (a1 - a0);
}

export function go(state: GuidedState, view: WorldView, doing: Doing): void {
  state.doing = doing;
  state.since_step = view.step;
}
