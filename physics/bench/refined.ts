/** Meshes finer or coarser than the usual one by a factor everywhere. */
import { DEFAULT_SIZES, type MeshSizes } from '../mesh/sizes.ts';

/** The usual sizes times `factor`: 0.5 gives about four times the nodes. */
export function scaledSizes(factor: number): MeshSizes {
  const { tip_mm, face_mm, far_mm, rim_mm, ...rest } = DEFAULT_SIZES;
  return {
    ...rest,
    tip_mm: factor * tip_mm,
    face_mm: factor * face_mm,
    far_mm: factor * far_mm,
    rim_mm: factor * rim_mm,
  };
}
