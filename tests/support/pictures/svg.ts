/** Plain SVG from computed coordinates. What a picture shows is kept in its metadata, so that a test can hold the one against the other. */
import { TEACHING_CAUTION } from '../../../physics/index.ts';

export interface Picture {
  readonly name: string;
  readonly title: string;
  readonly width: number;
  readonly height: number;
  /** Everything that counts, rounded; the digest of a world stands for its state to the bit. */
  readonly numbers: unknown;
  readonly body: string;
}

export type Place = readonly [number, number];

export const round = (value: number, digits = 2): number => Number(value.toFixed(digits));

export const text = (x: number, y: number, words: string, more = ''): string =>
  `<text x="${round(x, 1)}" y="${round(y, 1)}" ${more}>${escaped(words)}</text>`;

export const line = (places: readonly Place[], more: string): string =>
  `<polyline points="${places.map(([x, y]) => `${round(x, 1)},${round(y, 1)}`).join(' ')}" fill="none" ${more}/>`;

export const dot = ([x, y]: Place, r: number, more: string): string =>
  `<circle cx="${round(x, 1)}" cy="${round(y, 1)}" r="${round(r, 1)}" ${more}/>`;

export function arrow([x, y]: Place, [toX, toY]: Place, colour: string, wide = 2.5): string {
  const long = Math.hypot(toX - x, toY - y) || 1;
  const [ux, uy] = [(toX - x) / long, (toY - y) / long];
  const wing = (side: number): Place => [toX - 8 * ux - 4 * side * uy, toY - 8 * uy + 4 * side * ux];
  const shaft = line(
    [
      [x, y],
      [toX, toY],
    ],
    `stroke="${colour}" stroke-width="${wide}"`,
  );
  return shaft + line([wing(1), [toX, toY], wing(-1)], `stroke="${colour}" stroke-width="${wide}"`);
}

const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** The whole file, with the caution under the picture. */
export function svgOf({ name, title, width, height, numbers, body }: Picture): string {
  const [first, ...rest] = TEACHING_CAUTION.split(/(?<=\.) /);
  const caution =
    text(10, height - 20, first, 'font-size="10.5" fill="#444"') +
    text(10, height - 7, rest.join(' '), 'font-size="10.5" fill="#444"');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="sans-serif" font-size="12" fill="#222">
<title>${escaped(title)}</title>
<metadata id="${name}">${escaped(JSON.stringify(numbers))}</metadata>
<rect width="${width}" height="${height}" fill="#fff"/>
${text(10, 20, title, 'font-size="14" font-weight="bold"')}
${body}
${caution}
</svg>
`;
}
