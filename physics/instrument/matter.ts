import Matter from 'matter-js';
import { cos, sin } from '../core/elementary/circular.ts';

/*
 * matter-js, with the two places where it turns a body's outline and its axes given our sine and cosine instead of the engine's, so that a
 * shaft meets the wall at the same bits everywhere. What else a shaft uses of it are sums, products and roots, which the language
 * fixes. Whoever needs the library takes it from here.
 */

Matter.Vertices.rotate = (vertices, angle, point) => {
  if (angle === 0) return vertices;
  const [c, s] = [cos(angle), sin(angle)];
  for (const vertex of vertices) {
    const [dx, dy] = [vertex.x - point.x, vertex.y - point.y];
    vertex.x = point.x + (dx * c - dy * s);
    vertex.y = point.y + (dx * s + dy * c);
  }
  return vertices;
};

Matter.Axes.rotate = (axes, angle) => {
  if (angle === 0) return;
  const [c, s] = [cos(angle), sin(angle)];
  for (const axis of axes) {
    const { x, y } = axis;
    axis.x = x * c - y * s;
    axis.y = x * s + y * c;
  }
};

export default Matter;
