import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  DynamicDrawUsage,
  Group,
  Mesh,
  ShaderMaterial,
  type Vector2,
} from 'three';
import type { StageGeometry, WorldView } from '../../physics/index.ts';
import {
  capsuleFragment,
  capsuleVertex,
  flatFragment,
  flatVertex,
  shadowFragment,
  shadowVertex,
} from './capsule-shaders.ts';
import { LAYER } from './layers.ts';
import { fillNormals } from './sheet-normals.ts';
import { orderSheet, type Pupil, type SheetOrder, UNDER_IRIS_mm } from './sheet-order.ts';
import { fillTension, TensionRoom } from './sheet-tension.ts';

/** The capsule: what lies flat is drawn under the iris, what is lifted or folded over it, from the bottom up. */
export class CapsuleLayer {
  readonly group = new Group();
  /** 1 for each node that belongs to lifted or folded tissue; refreshed with the positions. */
  isHigh: Uint8Array = new Uint8Array(0);
  readonly #low = new BufferGeometry();
  readonly #high = new BufferGeometry();
  readonly #materials: ShaderMaterial[];
  readonly #pupil: Pupil;
  #topology = -1;
  #view: WorldView | null = null;
  readonly #tissue: readonly ShaderMaterial[];
  /** The view whose tension the nodes have as their colour, and the tension of the last colour; null where none is shown. */
  #coloured: WorldView | null = null;
  #full_mN_per_mm: number | null = null;
  readonly #room = new TensionRoom();

  constructor(geometry: StageGeometry, lensCentre: Vector2) {
    // a triangle that reaches in from outside must not be lost: a little more than the hole itself
    this.#pupil = { centre_mm: geometry.pupilCentre_mm, radius_mm: geometry.pupilDiameter_mm / 2 + UNDER_IRIS_mm };
    const uniforms = {
      dyed: { value: geometry.dyed ? 1 : 0 },
      domeRadius: { value: geometry.anteriorRadius_mm },
      lensCentre: { value: lensCentre },
    };
    const common = { transparent: true, depthTest: false, depthWrite: false, side: DoubleSide, forceSinglePass: true };
    const tissue = (vertexShader: string, fragmentShader: string) =>
      new ShaderMaterial({ ...common, premultipliedAlpha: true, uniforms, vertexShader, fragmentShader });
    const flat = tissue(flatVertex, flatFragment);
    const lifted = tissue(capsuleVertex, capsuleFragment);
    const shadow = new ShaderMaterial({ ...common, vertexShader: shadowVertex, fragmentShader: shadowFragment });
    this.#tissue = [flat, lifted];
    this.#materials = [flat, lifted, shadow];
    this.#add(this.#low, flat, LAYER.capsule);
    this.#add(this.#high, shadow, LAYER.flapShadow);
    this.#add(this.#high, lifted, LAYER.flap);
  }

  /** New nodes or triangles: buffers are rebuilt. Otherwise nothing happens. */
  receive(view: WorldView): void {
    this.#view = view;
    if (view.topology === this.#topology && this.isHigh.length === view.position_mm.length / 3) return;
    this.#topology = view.topology;
    const nodes = view.position_mm.length / 3;
    this.isHigh = new Uint8Array(nodes);
    const attributes = {
      position: new BufferAttribute(new Float32Array(3 * nodes), 3).setUsage(DynamicDrawUsage),
      normal: new BufferAttribute(new Float32Array(3 * nodes), 3).setUsage(DynamicDrawUsage),
      reference: new BufferAttribute(view.reference_mm, 2),
      tension: new BufferAttribute(new Uint8Array(4 * nodes), 4, true).setUsage(DynamicDrawUsage),
    };
    this.#coloured = null;
    const index = new BufferAttribute(new Uint32Array(view.triangle.length), 1).setUsage(DynamicDrawUsage);
    for (const geometry of [this.#low, this.#high]) {
      geometry.dispose();
      for (const [name, attribute] of Object.entries(attributes)) geometry.setAttribute(name, attribute);
      geometry.setIndex(index);
    }
  }

  /**
   * Moves the nodes.
   * @param positions 3 numbers per node of the last received view, mm
   * @param tensionFull_mN_per_mm line tension that has the last colour of the tension map; null for no map
   */
  move(positions: Float32Array, tensionFull_mN_per_mm: number | null = null): void {
    const view = this.#view;
    if (view === null) return;
    const place = this.#low.getAttribute('position') as BufferAttribute;
    const normal = this.#low.getAttribute('normal') as BufferAttribute;
    const index = this.#low.index!;
    (place.array as Float32Array).set(positions);
    fillNormals(positions, view.triangle, normal.array as Float32Array);
    const order = orderSheet(
      positions,
      view.triangle,
      view.piece,
      this.#pupil,
      index.array as Uint32Array,
      this.isHigh,
    );
    place.needsUpdate = true;
    normal.needsUpdate = true;
    index.needsUpdate = true;
    this.#low.setDrawRange(0, 3 * order.lowCount);
    this.#high.setDrawRange(3 * order.lowCount, 3 * (order.seenCount - order.lowCount));
    this.#colour(view, order, tensionFull_mN_per_mm);
  }

  #colour(view: WorldView, order: SheetOrder, full_mN_per_mm: number | null): void {
    if ((full_mN_per_mm === null) !== (this.#full_mN_per_mm === null)) {
      for (const material of this.#tissue) {
        material.defines = full_mN_per_mm === null ? {} : { TENSION: '' };
        material.needsUpdate = true;
      }
    }
    const same = view === this.#coloured && full_mN_per_mm === this.#full_mN_per_mm;
    this.#full_mN_per_mm = full_mN_per_mm;
    if (full_mN_per_mm === null || same) return;
    this.#coloured = view;
    const tension = this.#low.getAttribute('tension') as BufferAttribute;
    fillTension(view, order, full_mN_per_mm, tension.array as Uint8Array, this.#room);
    tension.needsUpdate = true;
  }

  dispose(): void {
    this.#low.dispose();
    this.#high.dispose();
    for (const material of this.#materials) material.dispose();
  }

  #add(geometry: BufferGeometry, material: ShaderMaterial, renderOrder: number): void {
    const mesh = new Mesh(geometry, material);
    mesh.renderOrder = renderOrder;
    mesh.frustumCulled = false;
    this.group.add(mesh);
  }
}
