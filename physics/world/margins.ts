/** Torn margins as runs of nodes. */
import { atan2 } from '../core/elementary/inverse-circular.ts';
import type { World } from './state.ts';

/** Nodes along one side of a tear from start to end. */
export function faceRun(faces: Int32Array): Uint32Array {
  const run = new Uint32Array(faces.length / 2 + 1);
  run[0] = faces[0];
  for (let s = 0; s < faces.length / 2; s++) run[s + 1] = faces[2 * s + 1];
  return run;
}

/** The side of a tear that stays with the rim: the right one where the tear goes round counter-clockwise. */
export function outerFaces(world: World, index: number): Int32Array {
  const { points } = world.tears[index];
  let swept = 0;
  for (let k = 2; k < points.length; k += 2)
    swept += atan2(
      points[k - 2] * points[k + 1] - points[k - 1] * points[k],
      points[k - 2] * points[k] + points[k - 1] * points[k + 1],
    );
  return swept >= 0 ? world.mesh.right[index] : world.mesh.left[index];
}
