/// <reference path="./fonts.d.ts" />
/** The font for Hindi, carried by the report itself: a page that fetches nothing cannot rely on the machine having one. */
import regular from '@fontsource/noto-sans-devanagari/files/noto-sans-devanagari-devanagari-400-normal.woff2?inline';
import strong from '@fontsource/noto-sans-devanagari/files/noto-sans-devanagari-devanagari-600-normal.woff2?inline';

export const DEVANAGARI = 'Rimward Devanagari';

/** The script's letters, the joiners and the rupee sign: everything else comes from the page's other fonts. */
const RANGE = 'U+0900-097F, U+1CD0-1CFF, U+200C-200D, U+20B9, U+25CC, U+A830-A839, U+A8E0-A8FF';

const face = (weight: number, address: string): string =>
  `@font-face { font-family: "${DEVANAGARI}"; font-weight: ${weight}; src: url(${address}) format("woff2"); unicode-range: ${RANGE}; }`;

/** Style rules that bring the font in both weights, about 140 kB. */
export const devanagariFaces = (): string => `${face(400, regular)}\n${face(600, strong)}`;
