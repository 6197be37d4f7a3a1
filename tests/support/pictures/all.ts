/** Every picture of the model's text. Quick ones are made anew by a test at each run. */
import { byAge, convergence, polar } from './curves.ts';
import type { Picture } from './svg.ts';
import { courses, midTear } from './torn.ts';

export interface PictureEntry {
  readonly name: string;
  readonly quick: boolean;
  readonly make: () => Picture;
}

export const PICTURES: readonly PictureEntry[] = [
  {
    name: 'mid-tear-infant',
    quick: true,
    make: () =>
      midTear('mid-tear-infant', 'Six months, thick fluid', 'infant-thick-fluid', 'infant-thick-holding', 160),
  },
  {
    name: 'mid-tear-adult',
    quick: true,
    make: () => midTear('mid-tear-adult', 'Adult', 'adult-baseline', 'adult-holding', 160),
  },
  {
    name: 'courses',
    quick: false,
    make: () =>
      courses('courses', 'Six months, thick fluid: two hands', [
        ['infant-thick-fluid', 'infant-thick-holding', 'pulled toward the centre'],
        ['infant-thick-fluid', 'tangent-pull', 'pulled along the tear'],
      ]),
  },
  {
    name: 'two-nicks',
    quick: false,
    make: () => courses('two-nicks', 'Two nicks that meet', [['infant-two-nicks', 'two-nicks-holding', 'two tears']]),
  },
  {
    name: 'polar',
    quick: true,
    make: () => polar('polar', 'Polar curve of a tip at six months', 'infant-thick-fluid', 'infant-thick-holding', 160),
  },
  { name: 'convergence', quick: true, make: () => convergence('convergence') },
  { name: 'hold-angle', quick: false, make: () => byAge('hold-angle', 'hold-angle', 2, 90, [0, 20, 40, 60, 80]) },
  {
    name: 'holding-limit',
    quick: false,
    make: () => byAge('holding-limit', 'holding-limit', 0, 8, [0, 2, 4, 6, 8]),
  },
];
