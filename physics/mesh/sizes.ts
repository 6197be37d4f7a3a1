/** How fine the mesh is, mm. Lengths in the reference disc. */
export interface MeshSizes {
  /** First ring at a live tip, and the length by which a tip advances. */
  readonly tip_mm: number;
  /** Along torn faces away from the tip. */
  readonly face_mm: number;
  /** Coarsest lattice spacing; finer levels halve it. */
  readonly far_mm: number;
  /** How often the coarsest spacing is halved at most. */
  readonly levels: number;
  /** Growth of the wished size per mm of distance from a tear. */
  readonly growth: number;
  /** Spacing of nodes on the rim. */
  readonly rim_mm: number;
  /** Radius of the patch of tissue that jaws hold; that of the faces' nodes unless given. Assumed 0.12, 0.1 to 0.2. */
  readonly jaws_mm?: number;
}

export const DEFAULT_SIZES: MeshSizes = {
  tip_mm: 0.06,
  face_mm: 0.12,
  far_mm: 0.56,
  levels: 2,
  growth: 0.22,
  rim_mm: 0.4,
};

export const jawsRadius_mm = ({ jaws_mm, face_mm }: MeshSizes): number => jaws_mm ?? face_mm;

/** Radii of the rings round a tip over the first, and nodes on each; edges grow by about 1.2 a ring. */
export const TIP_RINGS: readonly (readonly [number, number])[] = [
  [1, 6],
  [2, 12],
  [3.15, 16],
  [4.6, 18],
  [6.4, 20],
];
