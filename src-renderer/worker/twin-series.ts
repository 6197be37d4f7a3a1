import {
  eyeAt,
  type Scenario,
  type StageGeometry,
  stretchAtTension,
  type TipView,
  type WorldView,
} from '../../physics/index.ts';
import type { SeriesPoint } from '../places/lecture/contract.ts';
import { type LivingEye, type TipOnCircle, tipOnCircle, wrapped } from './twin-circle.ts';

/** Places of the unloaded disc in the living eye of a scenario. */
export function livingEye(scenario: Scenario, geometry: StageGeometry): LivingEye {
  const { age_years, stiffnessPreset, dyed, overrides } = scenario.eye;
  const eye = eyeAt(age_years, { stiffnessPreset, dyed, overrides });
  return {
    stretch: stretchAtTension(eye.baseTension_mN_per_mm, eye),
    lensCentre_mm: geometry.lensCentre_mm,
    targetCentre_mm: geometry.target.centre_mm,
  };
}

/** Arc that one tip has torn so far. */
interface Torn {
  /** Where it was seen last, degrees. */
  readonly angle_deg: number;
  /** Signed, counter-clockwise positive, unwrapped: more than a turn counts on. */
  readonly arc_deg: number;
  readonly way: 1 | -1;
}

/**
 * The numbers that the plots show of each moment of one eye, in order. It remembers how far each tip has come, since one
 * view alone does not tell a tear that has gone once round.
 */
export class TwinSeries {
  readonly #eye: LivingEye;
  readonly #torn = new Map<number, Torn>();

  constructor(eye: LivingEye) {
    this.#eye = eye;
  }

  /** The point of the view after the last one given. Every value is finite or null. */
  next(view: WorldView): SeriesPoint {
    const leading = this.#leading(view);
    const torn = leading === null ? undefined : this.#torn.get(leading.tip.id);
    return {
      step: view.step,
      time_s: view.time_s,
      arcTorn_deg: torn === undefined ? null : finite(torn.way * torn.arc_deg + 0),
      tipRadius_mm: finite(leading?.circle.radius_mm),
      drivingRatio: finite(leading?.tip.drivingRatio),
      headingError_deg: finite(leading?.circle.headingError_deg),
      gripForce_mN: finite(view.instrument.gripForce_mN) ?? 0,
      netPressure_mmHg: finite(view.chamber.netPressure_mmHg) ?? 0,
    };
  }

  /** The live tip that has torn the longest arc. */
  #leading(view: WorldView): { readonly tip: TipView; readonly circle: TipOnCircle } | null {
    let best: { readonly tip: TipView; readonly circle: TipOnCircle } | null = null;
    let most = Number.NEGATIVE_INFINITY;
    for (const tip of view.tips) {
      const circle = tip.live ? tipOnCircle(view, tip, this.#eye) : null;
      if (circle === null) continue;
      const torn = this.#follow(tip.id, circle);
      if (!(torn.way * torn.arc_deg > most)) continue;
      most = torn.way * torn.arc_deg;
      best = { tip, circle };
    }
    return best;
  }

  #follow(id: number, { angle_deg, way }: TipOnCircle): Torn {
    const before = this.#torn.get(id) ?? { angle_deg, arc_deg: 0, way };
    const arc_deg = before.arc_deg + wrapped(angle_deg - before.angle_deg);
    const now = { angle_deg, arc_deg, way: before.way };
    this.#torn.set(id, now);
    return now;
  }
}

const finite = (value: number | null | undefined): number | null =>
  value !== null && value !== undefined && Number.isFinite(value) ? value : null;
