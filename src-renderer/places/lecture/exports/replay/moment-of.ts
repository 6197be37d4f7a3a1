import type { StageGeometry, WorldView } from '../../../../../physics/index.ts';
import type { ReplayEye, ReplayMoment, ReplayTip } from './contract.ts';
import { type GridFrame, sheetGrid } from './sheet-grid.ts';

/** Sheet shown round the pupil, mm: what moves under its edge is not lost. */
const ROUND_PUPIL_mm = 0.25;

export const gridFrameOf = (geometry: StageGeometry, tensionMost_mN_per_mm: number): GridFrame => ({
  centre_mm: geometry.pupilCentre_mm,
  reach_mm: geometry.pupilDiameter_mm / 2 + ROUND_PUPIL_mm,
  tensionMost_mN_per_mm,
});

/** Everything of an eye but its moments. */
export function eyeOf(label: string, geometry: StageGeometry, frame: GridFrame): Omit<ReplayEye, 'moments'> {
  return {
    label,
    limbusDiameter_mm: geometry.limbusDiameter_mm,
    pupilDiameter_mm: geometry.pupilDiameter_mm,
    lensDiameter_mm: geometry.lensDiameter_mm,
    pupilCentre_mm: geometry.pupilCentre_mm,
    lensCentre_mm: geometry.lensCentre_mm,
    targetCentre_mm: geometry.target.centre_mm,
    lineDiameter_mm: geometry.target.lineDiameter_mm,
    gridReach_mm: frame.reach_mm,
    tensionMost_mN_per_mm: frame.tensionMost_mN_per_mm,
  };
}

/** What a replay shows of a view. */
export function momentOf(view: WorldView, frame: GridFrame): ReplayMoment {
  const run = (nodes: Uint32Array) =>
    [...nodes].flatMap((node) => [view.position_mm[3 * node]!, view.position_mm[3 * node + 1]!]);
  const { tip_mm, gripping, gripForce_mN } = view.instrument;
  return {
    margins: view.margins.map(run),
    tearLines: view.tearPath_mm.map((path) => [...path]),
    tips: view.tips.filter(({ live }) => live).map(tipOf),
    instrument: { x_mm: tip_mm[0], y_mm: tip_mm[1], gripping },
    gripForce_mN,
    netPressure_mmHg: view.chamber.netPressure_mmHg,
    sheet: sheetGrid(view, frame),
  };
}

const tipOf = (tip: WorldView['tips'][number]): ReplayTip => ({
  x_mm: tip.position_mm[0],
  y_mm: tip.position_mm[1],
  sheet_mN: tip.sheet_mN,
  pull_mN: tip.pull_mN,
  resultant_mN: tip.resultant_mN,
  ratio: tip.drivingRatio,
  resistance_mN: tip.drivingRatio > 0 ? tip.drivingForce_mN / tip.drivingRatio : 0,
});
