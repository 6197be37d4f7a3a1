import {
  BufferAttribute,
  BufferGeometry,
  CanvasTexture,
  GLSL3,
  LinearMipmapNearestFilter,
  Mesh,
  MeshBasicMaterial,
  NearestFilter,
  NoBlending,
  NormalBlending,
  type OrthographicCamera,
  RingGeometry,
  Scene,
  ShaderMaterial,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three';
import type { StageGeometry } from '../../physics/index.ts';
import { type Picture, paintGlobe, paintLens } from './eye-picture.ts';
import { LAYER } from './layers.ts';
import { UNDER_IRIS_mm } from './sheet-order.ts';

const frontVertex = /* glsl */ `
void main() {
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;

const stillFragment = /* glsl */ `
uniform sampler2D still;
out vec4 colour;
void main() {
  colour = texelFetch(still, ivec2(gl_FragCoord.xy), 0);
}`;

/** One triangle over the whole stage, whatever the camera. */
const wholeVertex = /* glsl */ `
void main() {
  gl_Position = vec4(position.xy, 0.0, 1.0);
}`;

/** Longest side of a triangle at the pupil's edge, mm: so far may one reach that has a corner within UNDER_IRIS_mm of it. */
export const LONGEST_SIDE_mm = 1;

const target = (): WebGLRenderTarget =>
  new WebGLRenderTarget(1, 1, { minFilter: NearestFilter, magFilter: NearestFilter, depthBuffer: false });

/**
 * What does not move: the lens, and before it iris, limbus and the white. Both are drawn at the size of the stage once, and
 * again only when the stage or its magnification changes. A picture begins as a copy of the whole; the iris is then laid over
 * the flat capsule as a ring, pixel by pixel, as far out as capsule can show. Looking pixels up costs a processor that draws
 * in place of a graphics card much less than filtering two large painted pictures for every pixel.
 */
export class Backdrop {
  /** The iris over what lies flat; belongs into the scene that moves. */
  readonly front: Mesh<RingGeometry, ShaderMaterial>;
  /** Lens and iris whole, under everything. */
  readonly back: Mesh<BufferGeometry, ShaderMaterial>;
  readonly #behind = target();
  readonly #before = target();
  readonly #lens: readonly Mesh<RingGeometry, MeshBasicMaterial>[];
  readonly #globe: readonly Mesh<RingGeometry, MeshBasicMaterial>[];
  readonly #scene = new Scene();
  #stale = true;

  constructor(geometry: StageGeometry) {
    const globe = paintGlobe(geometry);
    this.#lens = ringsOf(paintLens(geometry));
    this.#globe = ringsOf(globe);
    for (const mesh of this.#globe) mesh.renderOrder = 1;
    this.#scene.add(...this.#lens, ...this.#globe);
    const reach_mm = Math.min(globe.reach_mm, globe.opaqueFrom_mm + UNDER_IRIS_mm + LONGEST_SIDE_mm);
    this.front = new Mesh(
      new RingGeometry(globe.emptyRadius_mm, reach_mm, 128),
      lookedUp(this.#before, frontVertex, NormalBlending),
    );
    this.front.renderOrder = LAYER.globe;
    const whole = new BufferGeometry().setAttribute(
      'position',
      new BufferAttribute(new Float32Array([-1, -1, 0, 3, -1, 0, -1, 3, 0]), 3),
    );
    this.back = new Mesh(whole, lookedUp(this.#behind, wholeVertex, NoBlending));
    this.back.renderOrder = LAYER.lens;
    for (const mesh of [this.front, this.back]) mesh.frustumCulled = false;
  }

  /** The stage has another size, magnification or sharpness. */
  spoil(): void {
    this.#stale = true;
  }

  /** To be called before each picture: draws what does not move, if it is another. */
  refresh(renderer: WebGLRenderer, camera: OrthographicCamera): void {
    const { width, height } = renderer.domElement;
    if (this.#stale || this.#behind.width !== width || this.#behind.height !== height) {
      this.#draw(renderer, camera, width, height);
    }
  }

  dispose(): void {
    for (const { geometry, material } of [...this.#lens, ...this.#globe]) {
      geometry.dispose();
      material.map?.dispose();
      material.dispose();
    }
    for (const { geometry, material } of [this.front, this.back]) {
      geometry.dispose();
      material.dispose();
    }
    this.#behind.dispose();
    this.#before.dispose();
  }

  #draw(renderer: WebGLRenderer, camera: OrthographicCamera, width: number, height: number): void {
    for (const one of [this.#behind, this.#before]) one.setSize(width, height);
    const alpha = renderer.getClearAlpha();
    for (const [one, opaque] of [
      [this.#behind, true],
      [this.#before, false],
    ] as const) {
      renderer.setRenderTarget(one);
      renderer.setClearAlpha(opaque ? 1 : 0);
      renderer.clear(true, false, false);
      for (const mesh of this.#lens) mesh.visible = opaque;
      renderer.render(this.#scene, camera);
    }
    renderer.setRenderTarget(null);
    renderer.setClearAlpha(alpha);
    this.#stale = false;
  }
}

/** Takes its colour from the same pixel of a picture as large as the stage. */
const lookedUp = (
  { texture }: WebGLRenderTarget,
  vertexShader: string,
  blending: typeof NoBlending | typeof NormalBlending,
): ShaderMaterial =>
  new ShaderMaterial({
    uniforms: { still: { value: texture } },
    vertexShader,
    fragmentShader: stillFragment,
    glslVersion: GLSL3,
    blending,
    transparent: true,
    premultipliedAlpha: true,
    depthTest: false,
    depthWrite: false,
  });

/**
 * Rings and not squares: what is empty in the middle of a picture costs nothing, and what is opaque is not blended.
 */
function ringsOf(picture: Picture): Mesh<RingGeometry, MeshBasicMaterial>[] {
  const { canvas, middle_mm, reach_mm, emptyRadius_mm, opaqueFrom_mm } = picture;
  const map = new CanvasTexture(canvas);
  map.minFilter = LinearMipmapNearestFilter;
  map.premultiplyAlpha = true;
  const rings: Mesh<RingGeometry, MeshBasicMaterial>[] = [];
  const ring = (from_mm: number, to_mm: number, blending: typeof NoBlending | typeof NormalBlending): void => {
    if (to_mm <= from_mm) return;
    const material = new MeshBasicMaterial({ map, transparent: true, blending, depthTest: false, depthWrite: false });
    material.premultipliedAlpha = true;
    const mesh = new Mesh(ringOfPicture(from_mm, to_mm, reach_mm), material);
    mesh.position.set(middle_mm[0], middle_mm[1], 0);
    mesh.frustumCulled = false;
    rings.push(mesh);
  };
  ring(emptyRadius_mm, Math.max(emptyRadius_mm, opaqueFrom_mm), NormalBlending);
  ring(Math.max(emptyRadius_mm, opaqueFrom_mm), reach_mm, NoBlending);
  return rings;
}

/** A ring that shows its part of a square picture of half width `reach_mm`. */
function ringOfPicture(from_mm: number, to_mm: number, reach_mm: number): RingGeometry {
  const geometry = new RingGeometry(from_mm, to_mm, 128);
  const place = geometry.getAttribute('position');
  const uv = geometry.getAttribute('uv');
  for (let i = 0; i < place.count; i++) {
    uv.setXY(i, place.getX(i) / reach_mm / 2 + 0.5, place.getY(i) / reach_mm / 2 + 0.5);
  }
  return geometry;
}
