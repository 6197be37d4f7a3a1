/**
 * Unit normals of the nodes, each the area-weighted mean of its triangles' normals.
 *
 * @param position 3 per node, mm
 * @param triangle 3 node indices per triangle
 * @param normal receives 3 per node; (0, 0, 1) where the triangles cancel out
 */
export function fillNormals(position: Float32Array, triangle: Uint32Array, normal: Float32Array): void {
  normal.fill(0);
  for (let t = 0; t < triangle.length; t += 3) {
    const a = 3 * triangle[t]!;
    const b = 3 * triangle[t + 1]!;
    const c = 3 * triangle[t + 2]!;
    const ux = position[b]! - position[a]!;
    const uy = position[b + 1]! - position[a + 1]!;
    const uz = position[b + 2]! - position[a + 2]!;
    const vx = position[c]! - position[a]!;
    const vy = position[c + 1]! - position[a + 1]!;
    const vz = position[c + 2]! - position[a + 2]!;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    for (let k = 0; k < 3; k++) {
      const node = 3 * triangle[t + k]!;
      normal[node]! += nx;
      normal[node + 1]! += ny;
      normal[node + 2]! += nz;
    }
  }
  for (let i = 0; i < normal.length; i += 3) {
    const length = Math.hypot(normal[i]!, normal[i + 1]!, normal[i + 2]!);
    if (length > 1e-12) {
      normal[i]! /= length;
      normal[i + 1]! /= length;
      normal[i + 2]! /= length;
    } else normal[i + 2] = 1;
  }
}
