/**
 * Barycentric coordinates in a triangle seen in its plane.
 *
 * @param place coordinates, `stride` per node, the first two in the plane
 * @returns weights of the three nodes, and twice the signed area; weights are not finite where that is 0
 */
export function barycentric(
  place: ArrayLike<number>,
  stride: number,
  nodes: readonly [number, number, number],
  x: number,
  y: number,
): { weights: [number, number, number]; twice: number } {
  const a = nodes[0] * stride;
  const b = nodes[1] * stride;
  const c = nodes[2] * stride;
  const bx = place[b] - place[a];
  const by = place[b + 1] - place[a + 1];
  const cx = place[c] - place[a];
  const cy = place[c + 1] - place[a + 1];
  const px = x - place[a];
  const py = y - place[a + 1];
  const twice = bx * cy - by * cx;
  const wb = (px * cy - py * cx) / twice;
  const wc = (bx * py - by * px) / twice;
  return { weights: [1 - wb - wc, wb, wc], twice };
}

/** The three nodes of the triangle whose first corner is `at`. */
export const cornersAt = (triangle: ArrayLike<number>, at: number): [number, number, number] => [
  triangle[at],
  triangle[at + 1],
  triangle[at + 2],
];

/** Value of a field at weights: component `axis` of `stride` per node. */
export const blend = (
  field: ArrayLike<number>,
  stride: number,
  axis: number,
  nodes: readonly [number, number, number],
  weights: readonly [number, number, number],
): number =>
  field[nodes[0] * stride + axis] +
  weights[1] * (field[nodes[1] * stride + axis] - field[nodes[0] * stride + axis]) +
  weights[2] * (field[nodes[2] * stride + axis] - field[nodes[0] * stride + axis]);
