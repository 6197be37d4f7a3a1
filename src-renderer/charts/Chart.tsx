import { type ReactNode, useEffect, useRef, useState } from 'react';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { t, useLanguage } from '../i18n/text.ts';
import { chartColours } from './chart-colours.ts';
import { chartData, chartOptions, type Shown, structureOf } from './chart-options.ts';
import type { ChartSpec } from './chart-spec.ts';
import { Legend } from './Legend.tsx';
import { Numbers } from './Numbers.tsx';
import { useThemeDrawn } from './theme-drawn.ts';
import './charts.css';

/** Height of a row of a strip chart, CSS pixels, and of what is above and below the rows. */
const ROW_px = 24;
const AROUND_ROWS_px = 64;
const NO_HEADS: readonly (number | null)[] = [];

interface ChartProps {
  readonly spec: ChartSpec;
  /** What stands over the chart in the place of its title, such as the title with an explanation. */
  readonly heading?: ReactNode;
  readonly height_px?: number;
  /** Place of the moment shown on each curve, in x; null where it is not known. */
  readonly heads?: readonly (number | null)[];
  /** Called with the x that a person points to while pressing. */
  readonly onSeek?: (x: number) => void;
  /** False where the names of the curves stand elsewhere. */
  readonly legend?: boolean;
}

/** A chart on a canvas, with the point under the pointer in words below and the numbers in a table for who asks. */
export function Chart({ spec, heading, height_px = 190, heads = NO_HEADS, onSeek, legend = true }: ChartProps) {
  const place = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const shown = useRef<Shown>({ spec, heads });
  shown.current = { spec, heads };
  const seek = useRef(onSeek);
  seek.current = onSeek;
  const theme = useThemeDrawn();
  const [words, setWords] = useState('');
  const tall_px = spec.rows === null ? height_px : AROUND_ROWS_px + ROW_px * Math.max(2, spec.rows.length);
  const language = useLanguage((state) => state.language);
  // numbers at the axes are written as the language writes them
  const structure = `${language} ${structureOf(spec)}`;
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const made = new uPlot(
      chartOptions({
        width_px: element.clientWidth,
        height_px: tall_px,
        colours: chartColours(element),
        shown: () => shown.current,
        setWords,
      }),
      chartData(shown.current.spec),
      element,
    );
    plot.current = made;
    const sizes = new ResizeObserver(() =>
      made.setSize({ width: Math.max(120, element.clientWidth), height: tall_px }),
    );
    sizes.observe(element);
    const stop = followPresses(made, (x) => seek.current?.(x));
    return () => {
      stop();
      sizes.disconnect();
      made.destroy();
      plot.current = null;
    };
  }, [structure, tall_px, theme]);
  useEffect(() => plot.current?.setData(chartData(spec)), [spec]);
  useEffect(() => plot.current?.redraw(false), [heads]);
  const count = spec.points.length + (spec.lines ?? []).reduce((sum, { xs }) => sum + xs.length, 0);
  return (
    <figure className="chart" data-testid="chart" data-points={count} data-seek={onSeek !== undefined}>
      <figcaption>{heading ?? spec.title}</figcaption>
      {legend && spec.lines !== undefined && (
        <Legend lines={spec.lines} published={(spec.published ?? []).length > 0} />
      )}
      <div
        ref={place}
        className="chart-place"
        role="img"
        aria-label={t('common.chart.label', { title: spec.title, count })}
      />
      <p className="chart-words" aria-live="off">
        {words === '' ? (legend ? ' ' : '') : words}
      </p>
      <Numbers spec={spec} />
    </figure>
  );
}

/** Tells the x under the pointer when it is pressed and while it is drawn along. @returns stops it */
function followPresses(plot: uPlot, tell: (x: number) => void): () => void {
  const { over } = plot;
  const pointed = (event: PointerEvent) => tell(plot.posToVal(event.clientX - over.getBoundingClientRect().left, 'x'));
  const pressed = (event: PointerEvent) => {
    if (event.button !== 0) return;
    over.setPointerCapture(event.pointerId);
    pointed(event);
  };
  const moved = (event: PointerEvent) => {
    if (over.hasPointerCapture(event.pointerId)) pointed(event);
  };
  over.addEventListener('pointerdown', pressed);
  over.addEventListener('pointermove', moved);
  return () => {
    over.removeEventListener('pointerdown', pressed);
    over.removeEventListener('pointermove', moved);
  };
}
