/** Fixed facts of a scenario's eye in the eye frame, and the map between the unloaded disc and the living eye. */
import { cos, sin } from '../core/elementary/circular.ts';
import { atan2 } from '../core/elementary/inverse-circular.ts';
import { type Eye, eyeAt } from '../eye/age.ts';
import { stretchAtTension } from '../eye/tension.ts';
import type { Scenario, ScenarioIncision } from '../scenario/scenario.ts';
import type { StageGeometry, Vec2 } from './contract.ts';

export interface EyeFrame {
  readonly eye: Eye;
  /** Stretch of the uncut capsule under its base tension: mm in the living eye per mm in the unloaded disc. */
  readonly baseStretch: number;
  readonly referenceRadius_mm: number;
  /** Radius of the zonule ring in the unloaded disc: a tip beyond it has run out. */
  readonly zonuleRing_mm: number;
  readonly lensCentre_mm: Vec2;
  readonly targetCentre_mm: Vec2;
  readonly geometry: StageGeometry;
}

/** Direction of a clock hour, radians counter-clockwise from +x: 12 is +y, 3 is +x. */
export const clockAngle = (clock_h: number): number => Math.PI / 2 - (clock_h * Math.PI) / 6;

/** Clock hour of a direction, 0 (exclusive) to 12. */
export function clockOf(dx: number, dy: number): number {
  const hour = 3 - (atan2(dy, dx) * 6) / Math.PI;
  return ((((hour % 12) + 12) % 12) + 12) % 12 || 12;
}

export function createEyeFrame(scenario: Scenario): EyeFrame {
  const { stiffnessPreset, dyed, overrides } = scenario.eye;
  const eye = eyeAt(scenario.eye.age_years, { stiffnessPreset, dyed, overrides });
  const baseStretch = stretchAtTension(eye.baseTension_mN_per_mm, eye);
  const offset = scenario.eye.lensOffset_mm;
  // the frame's origin is the reference centre that the scenario names; limbus and pupil are concentric
  const onLens = scenario.target.reference === 'lens';
  const lensCentre_mm: Vec2 = onLens ? [0, 0] : [offset[0], offset[1]];
  const pupilCentre_mm: Vec2 = onLens ? [-offset[0], -offset[1]] : [0, 0];
  const incisions = scenario.incisions.map((incision) =>
    placeIncision(incision, eye.limbusDiameter_mm, pupilCentre_mm),
  );
  return {
    eye,
    baseStretch,
    referenceRadius_mm: eye.lensDiameter_mm / 2 / baseStretch,
    zonuleRing_mm: eye.zonuleFreeDiameter_mm / 2 / baseStretch,
    lensCentre_mm,
    targetCentre_mm: [0, 0],
    geometry: {
      limbusDiameter_mm: eye.limbusDiameter_mm,
      pupilDiameter_mm: scenario.eye.pupilDiameter_mm,
      opacityDiameter_mm: scenario.eye.opacityDiameter_mm,
      lensDiameter_mm: eye.lensDiameter_mm,
      zonuleFreeDiameter_mm: eye.zonuleFreeDiameter_mm,
      anteriorRadius_mm: eye.anteriorRadius_mm,
      dyed,
      pupilCentre_mm,
      lensCentre_mm,
      target: {
        centre_mm: [0, 0],
        diameter_mm: scenario.target.diameter_mm,
        lineDiameter_mm: scenario.target.lineDiameter_mm,
      },
      incisions,
    },
  };
}

function placeIncision(incision: ScenarioIncision, limbusDiameter_mm: number, centre_mm: Vec2) {
  const angle = clockAngle(incision.clock_h);
  const r = limbusDiameter_mm / 2;
  const position_mm: Vec2 = [centre_mm[0] + r * cos(angle), centre_mm[1] + r * sin(angle)];
  return { position_mm, clock_h: incision.clock_h, width_mm: incision.width_mm };
}

/** What the stage draws of an eye before any cut. */
export const stageGeometry = (scenario: Scenario): StageGeometry => createEyeFrame(scenario).geometry;
