/** Meshes finer or coarser than the usual one by a factor. */
import { DEFAULT_SIZES, jawsRadius_mm, type MeshSizes } from '../mesh/sizes.ts';

/** The usual sizes times `factor`, everywhere but what the jaws hold: 0.5 gives about four times the nodes, and each millimetre torn takes twice the elements. */
export function scaledSizes(factor: number): MeshSizes {
  const { tip_mm, face_mm, far_mm, rim_mm, ...rest } = DEFAULT_SIZES;
  return {
    ...rest,
    tip_mm: factor * tip_mm,
    face_mm: factor * face_mm,
    far_mm: factor * far_mm,
    rim_mm: factor * rim_mm,
    jaws_mm: jawsRadius_mm(DEFAULT_SIZES),
  };
}

/** The same with the tip as it is and faces no finer than it, so that a millimetre torn takes as many elements at any number of nodes. */
export function scaledAwayFromTip(factor: number): MeshSizes {
  const { tip_mm } = DEFAULT_SIZES;
  const scaled = scaledSizes(factor);
  return { ...scaled, tip_mm, face_mm: Math.max(tip_mm, scaled.face_mm) };
}
