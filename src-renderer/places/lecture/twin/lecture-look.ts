import type { StageGeometry } from '../../../../physics/index.ts';
import { magnificationFor } from '../../../stage/microscope.ts';
import type { StageLook } from '../../../stage/stage.ts';
import type { PolarCurve } from '../../../stage/teaching-look.ts';
import { useView } from '../../../stores/view-store.ts';
import { livingEye } from '../../../worker/twin-series.ts';
import type { SideId, TwinSideState } from '../contract.ts';
import { usePolar } from './polar-store.ts';
import { useLectureLook, useTwin } from './twin-store.ts';

const PROJECTOR_WEIGHT = 1.5;
/** A lecture is looked at from farther away than a desk. */
const ROOM_WEIGHT = 1.2;
/** Field shown at magnification 1, in pupil diameters: the pupil with a little iris. */
const PUPIL_SHARE = 1.12;
/** Length of an arrow as large as the tear resistance, mm: longer than at a desk. */
const ARROW_LENGTH_mm = 1.25;
/** The last colour of the tension map, in uncut tensions of the tauter eye: a free margin carries about twice that. */
const FULL_IN_UNCUT = 3;

/** Line tension that has the last colour in both eyes, mN/mm. */
export function fullTension_mN_per_mm(): number {
  const { left, right } = useTwin.getState();
  const uncut = (side: TwinSideState | null) => side?.uncutTension_mN_per_mm ?? 0;
  const taut = FULL_IN_UNCUT * Math.max(uncut(left), uncut(right));
  return taut > 0 ? taut : 1;
}

/** Both eyes at one scale, so that a millimetre is as long in the one as in the other. */
function magnification(geometry: StageGeometry, asked: number): number {
  const { left, right } = useTwin.getState();
  const pupil = Math.max(left?.geometry?.pupilDiameter_mm ?? 0, right?.geometry?.pupilDiameter_mm ?? 0);
  return pupil > 0 ? asked * magnificationFor(geometry.limbusDiameter_mm, PUPIL_SHARE * pupil) : asked;
}

/** Driving force by direction, where it is wanted and known of the moment shown. */
function curvesOf(id: SideId): readonly PolarCurve[] {
  const shown = usePolar.getState()[id];
  return typeof shown === 'string' ? [] : shown.curves;
}

/** How an eye of the pair is to be drawn now. */
export function lectureLook(id: SideId): StageLook | null {
  const side = useTwin.getState()[id];
  if (side?.geometry == null) return null;
  const { aids, camera } = useLectureLook.getState();
  const { arrows, targetCircle, safeCone, tensionMap, principalStrokes } = aids;
  return {
    magnification: magnification(side.geometry, camera.magnification),
    aids: { arrows: { pull: arrows, sheet: arrows, resultant: arrows }, targetCircle },
    weight: useView.getState().theme === 'projector' ? PROJECTOR_WEIGHT : ROOM_WEIGHT,
    teaching: {
      safeCone,
      tensionMap,
      principalStrokes,
      polarCurves: curvesOf(id),
      tensionFull_mN_per_mm: fullTension_mN_per_mm(),
      names: true,
      arrowLength_mm: ARROW_LENGTH_mm,
      living: livingEye(side.scenario, side.geometry),
    },
  };
}
