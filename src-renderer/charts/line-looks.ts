/** How the curves of one chart are told apart: dash and mark first, colour only besides. */
export interface LineLook {
  /** Lengths of stroke and gap, CSS pixels; empty for a line without gaps. */
  readonly dash: readonly number[];
  readonly mark: 'circle' | 'square' | 'diamond' | 'triangle';
  /** Variable of the theme. */
  readonly colour: '--ink' | '--focus' | '--accent' | '--met';
}

const LOOKS: readonly LineLook[] = [
  { dash: [], mark: 'circle', colour: '--ink' },
  { dash: [7, 4], mark: 'square', colour: '--focus' },
  { dash: [2, 3], mark: 'diamond', colour: '--accent' },
  { dash: [9, 3, 2, 3], mark: 'triangle', colour: '--met' },
];

/** Most curves that one chart can tell apart. */
export const MOST_LINES = LOOKS.length;

export const lineLook = (at: number): LineLook => LOOKS[at % LOOKS.length]!;

/** Corners of a mark of half size 1 about the origin, y downward; null for the circle. */
export const MARK_CORNERS: Readonly<Record<LineLook['mark'], readonly (readonly [number, number])[] | null>> = {
  circle: null,
  square: [
    [-0.9, -0.9],
    [0.9, -0.9],
    [0.9, 0.9],
    [-0.9, 0.9],
  ],
  diamond: [
    [0, -1.25],
    [1.25, 0],
    [0, 1.25],
    [-1.25, 0],
  ],
  triangle: [
    [0, -1.2],
    [1.1, 0.9],
    [-1.1, 0.9],
  ],
};
