import { ColorManagement, LinearSRGBColorSpace, OrthographicCamera, Scene, Vector2, WebGLRenderer } from 'three';
import type { Scenario, StageGeometry, WorldView } from '../../physics/index.ts';
import { targetRing } from './aims.ts';
import { ArrowLayer, type ArrowName } from './arrow-layer.ts';
import { BlendedSheet } from './blended-sheet.ts';
import { CapsuleLayer } from './capsule-layer.ts';
import { InstrumentLayer } from './instrument-layer.ts';
import { IrisLayer } from './iris-layer.ts';
import { MarginLayer } from './margin-layer.ts';
import { frameFor, type StageFrame } from './microscope.ts';
import { rimSideOnly } from './rim-side.ts';
import { ScaleLayer } from './scale-layer.ts';
import { drawsInFull, Sharpness } from './sharpness.ts';
import { StillPicture } from './still-picture.ts';
import { TeachingLayer } from './teaching-layer.ts';
import type { TeachingLook } from './teaching-look.ts';

/** Drawn pixels per CSS pixel are capped: software drawing pays for each. */
const LARGEST_PIXEL_RATIO = 1.5;

/** A picture that has stood this long is worth its full sharpness, ms. Our choice. */
const STANDS_ms = 350;

export interface StageAids {
  readonly arrows: Readonly<Record<ArrowName, boolean>>;
  readonly targetCircle: boolean;
}

/** How the stage is to be drawn now. */
export interface StageLook {
  readonly magnification: number;
  readonly aids: StageAids;
  /** 1 for a desk; larger makes lines and letters heavier, for a projector. */
  readonly weight: number;
  /** What is drawn for a room that looks on; left out where one person works. */
  readonly teaching?: TeachingLook;
}

/** Everything that is drawn of one eye: what moves on the canvas given, what does not on one behind it. Made for one canvas and one eye; dispose and make another for the next. */
export class Stage {
  readonly #renderer: WebGLRenderer;
  readonly #scene = new Scene();
  readonly #camera = new OrthographicCamera(-1, 1, 1, -1, -10, 10);
  readonly #geometry: StageGeometry;
  readonly #tolerances: Scenario['tolerances'];
  readonly #sheet = new BlendedSheet();
  readonly #capsule: CapsuleLayer;
  readonly #margins = new MarginLayer();
  readonly #instrument = new InstrumentLayer();
  readonly #arrows = new ArrowLayer();
  readonly #scale = new ScaleLayer();
  readonly #teaching = new TeachingLayer();
  readonly #iris: IrisLayer;
  readonly #still: StillPicture;
  readonly #sharpness = new Sharpness(drawsInFull());
  #pixelRatio = 1;
  /** Share of the full resolution at which it was drawn last, and when something moved last. */
  #drawnShare = 1;
  #drawnAt_ms = 0;
  #look: StageLook;
  #frame: StageFrame;
  #scaleIsStale = true;
  #settled = false;

  /** Throws where the browser gives no WebGL 2. */
  constructor(canvas: HTMLCanvasElement, geometry: StageGeometry, scenario: Scenario, look: StageLook) {
    ColorManagement.enabled = false;
    this.#renderer = new WebGLRenderer({ canvas, antialias: false, alpha: true, depth: false, stencil: false });
    this.#renderer.outputColorSpace = LinearSRGBColorSpace;
    this.#renderer.setClearAlpha(0);
    this.#geometry = geometry;
    this.#tolerances = scenario.tolerances;
    this.#look = look;
    this.#frame = frameFor(1, 1, geometry.limbusDiameter_mm, 1);
    this.#capsule = new CapsuleLayer(geometry, new Vector2(...geometry.lensCentre_mm));
    this.#iris = new IrisLayer(geometry);
    this.#still = new StillPicture(geometry);
    for (const layer of this.#layers) this.#scene.add(layer.group);
  }

  get #layers() {
    return [this.#capsule, this.#iris, this.#teaching, this.#margins, this.#instrument, this.#arrows, this.#scale];
  }

  /** What does not move; belongs right behind the canvas of the stage, at the same size. */
  get still(): HTMLCanvasElement {
    return this.#still.canvas;
  }

  get frame(): StageFrame {
    return this.#frame;
  }

  /** Share of the full resolution along each side at which what moves was drawn last. */
  get drawnShare(): number {
    return this.#drawnShare;
  }

  /** @param largest drawn pixels per CSS pixel at most; more than usual for a picture that is drawn once */
  resize(width_px: number, height_px: number, pixelRatio: number, largest = LARGEST_PIXEL_RATIO): void {
    this.#pixelRatio = Math.min(largest, pixelRatio);
    this.#sharpness.reset();
    this.#drawnShare = 1;
    this.#renderer.setPixelRatio(this.#pixelRatio);
    this.#renderer.setSize(width_px, height_px, false);
    this.#reframe(width_px, height_px);
  }

  setLook(look: StageLook): void {
    this.#look = look;
    this.#reframe(this.#frame.width_px, this.#frame.height_px);
  }

  /** @param gap_ms time over which to pass from the view before to this one; left out, the time since that one came */
  receive(view: WorldView, at_ms: number, gap_ms?: number): void {
    const relaxed = view.phase === 'ended';
    if (relaxed !== (this.#sheet.latest?.phase === 'ended')) this.#scaleIsStale = true;
    const shown = relaxed ? rimSideOnly(view) : view;
    this.#sheet.receive(shown, at_ms, gap_ms);
    this.#capsule.receive(shown);
    this.#settled = false;
  }

  /** Drops the last views, for a new attempt on the same eye. */
  forget(): void {
    this.#sheet.forget();
    this.#scaleIsStale = true;
  }

  /** Draws the present moment; does nothing when nothing has changed since. @returns whether it drew */
  draw(at_ms: number): boolean {
    const view = this.#sheet.latest;
    const rests = this.#settled && !this.#scaleIsStale;
    this.#sharpness.frame(at_ms, !rests);
    if (rests) return this.#drawStill(at_ms);
    this.#drawnAt_ms = at_ms;
    this.#sharpen(this.#sharpness.share);
    const mmPerPx = 1 / this.#frame.pxPerMm;
    if (view !== null) {
      const positions = this.#sheet.positionsAt(at_ms);
      const { teaching = null } = this.#look;
      this.#capsule.move(positions, teaching?.tensionMap ? teaching.tensionFull_mN_per_mm : null);
      this.#margins.draw(view, positions, this.#capsule.isHigh, mmPerPx * this.#weight);
      this.#instrument.group.visible = view.phase !== 'ended';
      this.#instrument.draw(view.instrument, this.#sheet.instrumentTipAt(at_ms) ?? view.instrument.tip_mm);
      const { right, top } = this.#camera;
      this.#arrows.draw(view.tips, this.#look.aids.arrows, mmPerPx * this.#weight, [right, top], teaching);
      if (teaching === null) this.#teaching.hide();
      else this.#teaching.draw(view, this.#capsule.isHigh, teaching, mmPerPx * this.#weight);
    }
    if (this.#scaleIsStale) this.#drawScale(view);
    this.#renderer.render(this.#scene, this.#camera);
    this.#settled = this.#sheet.shareAt(at_ms) >= 1;
    return true;
  }

  /** A picture that has stood for a while is drawn once more, as fine as the screen allows. */
  #drawStill(at_ms: number): boolean {
    if (this.#drawnShare >= 1 || at_ms - this.#drawnAt_ms < STANDS_ms) return false;
    this.#sharpen(1);
    this.#renderer.render(this.#scene, this.#camera);
    return true;
  }

  #sharpen(share: number): void {
    if (share === this.#drawnShare) return;
    this.#drawnShare = share;
    this.#renderer.setPixelRatio(this.#pixelRatio * share);
  }

  dispose(): void {
    for (const layer of this.#layers) layer.dispose();
    this.#renderer.dispose();
    // the canvas goes with its stage: give the drawing memory back at once
    this.#renderer.forceContextLoss();
  }

  #drawScale(view: WorldView | null): void {
    const ring = this.#look.aids.targetCircle
      ? targetRing(this.#geometry, this.#tolerances, view?.phase === 'ended')
      : null;
    this.#scale.draw(this.#geometry, this.#frame, ring, this.#weight);
    this.#scaleIsStale = false;
  }

  /** Lines and letters grow a little on large stages, so that they keep their share of the picture. */
  get #weight(): number {
    const shorter_px = Math.min(this.#frame.width_px, this.#frame.height_px);
    // names and fans for a room must leave a small stage its eye
    const size = this.#look.teaching === undefined ? Math.max(1, shorter_px / 720) : Math.max(0.55, shorter_px / 480);
    return this.#look.weight * Math.min(2.2, size);
  }

  #reframe(width_px: number, height_px: number): void {
    this.#frame = frameFor(width_px, height_px, this.#geometry.limbusDiameter_mm, this.#look.magnification);
    const halfWidth = width_px / 2 / this.#frame.pxPerMm;
    const halfHeight = height_px / 2 / this.#frame.pxPerMm;
    this.#camera.left = -halfWidth;
    this.#camera.right = halfWidth;
    this.#camera.top = halfHeight;
    this.#camera.bottom = -halfHeight;
    this.#camera.updateProjectionMatrix();
    this.#still.draw(this.#frame, this.#pixelRatio);
    this.#scaleIsStale = true;
  }
}
