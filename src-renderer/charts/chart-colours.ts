import { lineLook, MOST_LINES } from './line-looks.ts';

/** Colours of the present theme, as the canvas needs them. */
export interface ChartColours {
  readonly ink: string;
  readonly soft: string;
  readonly grid: string;
  readonly line: string;
  readonly band: string;
  readonly met: string;
  readonly missed: string;
  readonly card: string;
  /** One for each curve of a chart. */
  readonly lines: readonly string[];
  readonly font: string;
}

/** @param element any element of the page, whose theme is read */
export function chartColours(element: Element): ChartColours {
  const style = getComputedStyle(element);
  const read = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: read('--ink'),
    soft: read('--ink-soft'),
    grid: `color-mix(in srgb, ${read('--edge')} 28%, transparent)`,
    line: read('--sheet'),
    band: `color-mix(in srgb, ${read('--met')} 20%, transparent)`,
    met: read('--met'),
    missed: read('--missed'),
    card: read('--card'),
    lines: Array.from({ length: MOST_LINES }, (_, at) => read(lineLook(at).colour)),
    font: `${Math.round(Number.parseFloat(style.fontSize) * 0.86)}px ${style.fontFamily}`,
  };
}
