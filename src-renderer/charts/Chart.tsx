import { useEffect, useRef, useState } from 'react';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { useView } from '../stores/view-store.ts';
import { number } from '../ui/format.ts';
import { type ChartColours, chartColours } from './chart-colours.ts';
import { drawBand, drawLevels, drawMarks } from './chart-drawing.ts';
import { type ChartSpec, rangesOf } from './chart-spec.ts';
import './charts.css';

/** Height of a row of a strip chart, CSS pixels, and of what is above and below the rows. */
const ROW_px = 24;
const AROUND_ROWS_px = 64;

/** A chart on a canvas, with the point under the pointer in words below and the numbers in a table for who asks. */
export function Chart({ spec, height_px = 190 }: { readonly spec: ChartSpec; readonly height_px?: number }) {
  const place = useRef<HTMLDivElement>(null);
  const theme = useView((state) => state.theme);
  const [words, setWords] = useState('');
  const tall_px = spec.rows === null ? height_px : AROUND_ROWS_px + ROW_px * Math.max(2, spec.rows.length);
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const plot = new uPlot(
      optionsOf(spec, chartColours(element), element.clientWidth, tall_px, setWords),
      dataOf(spec),
      element,
    );
    const sizes = new ResizeObserver(() =>
      plot.setSize({ width: Math.max(120, element.clientWidth), height: tall_px }),
    );
    sizes.observe(element);
    return () => {
      sizes.disconnect();
      plot.destroy();
    };
  }, [spec, tall_px, theme]);
  return (
    <figure className="chart" data-testid="chart" data-points={spec.points.length}>
      <figcaption>{spec.title}</figcaption>
      <div ref={place} className="chart-place" role="img" aria-label={`${spec.title}: ${spec.points.length} points`} />
      <p className="chart-words" aria-live="off">
        {words === '' ? ' ' : words}
      </p>
      <Numbers spec={spec} />
    </figure>
  );
}

/** The same as text, for who cannot see the drawing or wants the numbers. */
function Numbers({ spec }: { readonly spec: ChartSpec }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="chart-numbers" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Numbers</summary>
      {open && (
        <ol>
          {spec.points.map((point, at) => (
            <li key={at}>{point.words}</li>
          ))}
        </ol>
      )}
    </details>
  );
}

const dataOf = ({ points }: ChartSpec): uPlot.AlignedData => [points.map(({ x }) => x), points.map(({ y }) => y)];

function optionsOf(
  spec: ChartSpec,
  colours: ChartColours,
  width: number,
  height: number,
  setWords: (words: string) => void,
): uPlot.Options {
  const ranges = rangesOf(spec);
  return {
    width: Math.max(120, width),
    height,
    padding: [8, 10, 0, 0],
    legend: { show: false },
    cursor: { y: spec.rows === null, drag: { x: false, y: false }, points: { size: 13, width: 2 } },
    scales: {
      x: { time: spec.xIsTime, range: [...ranges.x] as [number, number] },
      y: { range: [...ranges.y] as [number, number] },
    },
    axes: [xAxis(spec, colours), yAxis(spec, colours)],
    series: [{}, { stroke: colours.line, width: spec.joined ? 2 : 0, points: { show: false }, spanGaps: true }],
    hooks: {
      drawClear: [(plot) => drawBand(plot, spec, colours)],
      draw: [
        (plot) => {
          drawLevels(plot, spec, colours);
          drawMarks(plot, spec, colours);
        },
      ],
      setCursor: [({ cursor }) => setWords(cursor.idx == null ? '' : (spec.points[cursor.idx]?.words ?? ''))],
    },
  };
}

const axisLook = (colours: ChartColours): uPlot.Axis => ({
  stroke: colours.soft,
  font: colours.font,
  labelFont: colours.font,
  grid: { stroke: colours.grid, width: 1 },
  ticks: { stroke: colours.grid, width: 1 },
});

function xAxis(spec: ChartSpec, colours: ChartColours): uPlot.Axis {
  const whole = spec.xLabel.startsWith('Attempt');
  return {
    ...axisLook(colours),
    label: spec.xLabel,
    labelSize: 20,
    size: 32,
    ...(spec.xIsTime
      ? {}
      : { values: (_: uPlot, at: number[]) => at.map((x) => tickText(x, whole ? 0 : spec.decimals)) }),
    ...(whole ? { incrs: [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] } : {}),
  };
}

/** An en-dash minus and no "-0"; ticks between two whole attempts are left blank. */
const tickText = (value: number, decimals: number): string =>
  decimals === 0 && !Number.isInteger(value) ? '' : number(value, decimals);

function yAxis(spec: ChartSpec, colours: ChartColours): uPlot.Axis {
  const { rows } = spec;
  if (rows === null)
    return {
      ...axisLook(colours),
      label: spec.yLabel,
      labelSize: 20,
      size: 48,
      values: (_, at) => at.map((y) => number(y, spec.decimals)),
    };
  const longest = rows.reduce((most, name) => Math.max(most, name.length), 4);
  return {
    ...axisLook(colours),
    size: Math.min(150, 14 + 7.5 * longest),
    splits: () => rows.map((_, at) => -at),
    values: (_, at) => at.map((y) => shortName(rows[-y] ?? '')),
  };
}

const shortName = (name: string): string => (name.length > 18 ? `${name.slice(0, 17)}…` : name);
