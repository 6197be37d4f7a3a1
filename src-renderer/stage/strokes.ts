import { BufferAttribute, BufferGeometry, DoubleSide, DynamicDrawUsage, Mesh, MeshBasicMaterial } from 'three';

/** Red, green, blue, alpha, each 0 to 1, as shown on the screen. */
export type Paint = readonly [number, number, number, number];

export const paint = (hex: number, alpha = 1): Paint => [
  ((hex >> 16) & 255) / 255,
  ((hex >> 8) & 255) / 255,
  (hex & 255) / 255,
  alpha,
];

/** An empty mesh laid flat over what was drawn before it, each corner in a colour of its own. */
export function paintedMesh(renderOrder: number): Mesh<BufferGeometry, MeshBasicMaterial> {
  const material = new MeshBasicMaterial({
    vertexColors: true,
    transparent: true,
    depthTest: false,
    depthWrite: false,
    // triangles are wound either way
    side: DoubleSide,
    forceSinglePass: true,
  });
  const mesh = new Mesh(new BufferGeometry(), material);
  mesh.renderOrder = renderOrder;
  mesh.frustumCulled = false;
  return mesh;
}

/**
 * Flat strokes in the eye frame, mm, refilled whenever they change: call `begin`, draw, then `commit`. One mesh, one
 * material; buffers grow and are kept.
 */
export class Strokes {
  readonly mesh: Mesh<BufferGeometry, MeshBasicMaterial>;
  #place: Float32Array;
  #paint: Float32Array;
  #vertices = 0;

  constructor(renderOrder: number) {
    this.#place = new Float32Array(3 * 3 * 64);
    this.#paint = new Float32Array(4 * 3 * 64);
    this.mesh = paintedMesh(renderOrder);
  }

  begin(): void {
    this.#vertices = 0;
  }

  /** Hands the strokes to the drawing. */
  commit(): void {
    const geometry = this.mesh.geometry;
    const attribute = geometry.getAttribute('position') as BufferAttribute | undefined;
    if (attribute?.array !== this.#place) {
      geometry.dispose();
      geometry.setAttribute('position', new BufferAttribute(this.#place, 3).setUsage(DynamicDrawUsage));
      geometry.setAttribute('color', new BufferAttribute(this.#paint, 4).setUsage(DynamicDrawUsage));
    } else {
      geometry.getAttribute('position').needsUpdate = true;
      geometry.getAttribute('color').needsUpdate = true;
    }
    geometry.setDrawRange(0, this.#vertices);
    this.mesh.visible = this.#vertices > 0;
  }

  triangle(ax: number, ay: number, bx: number, by: number, cx: number, cy: number, colour: Paint): void {
    this.#vertex(ax, ay, colour);
    this.#vertex(bx, by, colour);
    this.#vertex(cx, cy, colour);
  }

  /** A four-cornered patch whose first and last corners may have another paint than the two between. */
  quad(corners: readonly number[], near: Paint, far: Paint = near): void {
    const [ax, ay, bx, by, cx, cy, dx, dy] = corners as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    this.#patch(ax, ay, bx, by, cx, cy, dx, dy, near, far);
  }

  line(x0: number, y0: number, x1: number, y1: number, width: number, colour: Paint): void {
    const length = Math.hypot(x1 - x0, y1 - y0);
    if (length === 0) return;
    const nx = (-(y1 - y0) / length) * (width / 2);
    const ny = ((x1 - x0) / length) * (width / 2);
    this.#patch(x0 + nx, y0 + ny, x1 + nx, y1 + ny, x1 - nx, y1 - ny, x0 - nx, y0 - ny, colour, colour);
  }

  /** Connected points, x,y pairs, shifted by an offset. */
  polyline(points: ArrayLike<number>, width: number, colour: Paint, dx = 0, dy = 0, closed = false): void {
    const count = points.length / 2;
    const last = closed ? count : count - 1;
    for (let i = 0; i < last; i++) {
      const j = (i + 1) % count;
      this.line(
        points[2 * i]! + dx,
        points[2 * i + 1]! + dy,
        points[2 * j]! + dx,
        points[2 * j + 1]! + dy,
        width,
        colour,
      );
    }
  }

  /** Part of a ring from one angle to another, radians. */
  arc(x: number, y: number, radius: number, from: number, to: number, width: number, colour: Paint): void {
    const pieces = Math.max(1, Math.ceil(Math.abs(to - from) / 0.07));
    const inner = radius - width / 2;
    const outer = radius + width / 2;
    for (let i = 0; i < pieces; i++) {
      const a = from + ((to - from) * i) / pieces;
      const b = from + ((to - from) * (i + 1)) / pieces;
      const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
      this.#patch(
        x + inner * ca,
        y + inner * sa,
        x + outer * ca,
        y + outer * sa,
        x + outer * cb,
        y + outer * sb,
        x + inner * cb,
        y + inner * sb,
        colour,
        colour,
      );
    }
  }

  dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }

  /** Plain numbers: thousands of these are drawn in each picture, and lists of corners would all be garbage. */
  #patch(
    ax: number,
    ay: number,
    bx: number,
    by: number,
    cx: number,
    cy: number,
    dx: number,
    dy: number,
    near: Paint,
    far: Paint,
  ): void {
    this.#vertex(ax, ay, near);
    this.#vertex(bx, by, far);
    this.#vertex(cx, cy, far);
    this.#vertex(ax, ay, near);
    this.#vertex(cx, cy, far);
    this.#vertex(dx, dy, near);
  }

  #vertex(x: number, y: number, colour: Paint): void {
    const i = this.#vertices;
    if (3 * (i + 1) > this.#place.length) this.#grow();
    this.#place[3 * i] = x;
    this.#place[3 * i + 1] = y;
    this.#place[3 * i + 2] = 0;
    for (let k = 0; k < 4; k++) this.#paint[4 * i + k] = colour[k]!;
    this.#vertices = i + 1;
  }

  #grow(): void {
    const place = new Float32Array(2 * this.#place.length);
    const colours = new Float32Array(2 * this.#paint.length);
    place.set(this.#place);
    colours.set(this.#paint);
    this.#place = place;
    this.#paint = colours;
  }
}
