import { useEffect, useMemo, useRef, useState } from 'react';
import { type Scenario, stageGeometry } from '../../../../physics/index.ts';
import type { AttemptSummary, OpeningShape } from '../../../../src-main/ipc/contract.ts';
import { t } from '../../../i18n/text.ts';
import { useView } from '../../../stores/view-store.ts';
import { MOST_ATTEMPTS } from '../logbook-store.ts';
import { DrawingLegend, halfSide_mm, OpeningDrawing } from '../OpeningDrawing.tsx';
import { faultWords, storeHost } from '../store-host.ts';
import type { ClassChoice } from './class-model.ts';

interface Openings {
  readonly scenario: Scenario;
  readonly shapes: readonly OpeningShape[];
}

/** The eye is that of the latest attempt; the shapes are those the store has of the chosen attempts. */
async function readOpenings(choice: ClassChoice, latest: AttemptSummary): Promise<Openings> {
  const host = storeHost();
  const { classId, scenarioId, place } = choice;
  const [stored, shapes] = await Promise.all([
    host.loadAttempt(latest.id),
    host.openingShapes({
      scenarioId,
      limit: MOST_ATTEMPTS,
      ...(classId === null ? {} : { classId }),
      ...(place === null ? {} : { place }),
    }),
  ]);
  return { scenario: stored.scenario, shapes };
}

/** All complete openings of the class drawn over each other, to scale. */
export function ClassOpenings({
  choice,
  attempts,
  brought,
}: {
  readonly choice: ClassChoice;
  readonly attempts: readonly AttemptSummary[];
  readonly brought: string | null;
}) {
  const [openings, setOpenings] = useState<Openings | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const latest = attempts.at(-1);
  useEffect(() => {
    let wanted = true;
    setProblem(null);
    if (latest === undefined) return setOpenings(null);
    readOpenings(choice, latest).then(
      (read) => wanted && setOpenings(read),
      (fault: unknown) => wanted && setProblem(faultWords(fault)),
    );
    return () => {
      wanted = false;
    };
  }, [choice, latest?.id, attempts.length]);
  if (problem !== null) return <p className="log-missed">{t('logbook.class.openingsFailed', { fault: problem })}</p>;
  if (latest === undefined) return <p className="log-quiet">{t('logbook.class.openingsNone')}</p>;
  if (openings === null) return <p className="log-quiet">{t('logbook.reading.openings')}</p>;
  return <Overlaid openings={openings} attempts={attempts} brought={brought} />;
}

function Overlaid({
  openings: { scenario, shapes },
  attempts,
  brought,
}: {
  readonly openings: Openings;
  readonly attempts: readonly AttemptSummary[];
  readonly brought: string | null;
}) {
  const person = useMemo(() => new Map(attempts.map(({ id, personId }) => [id, personId])), [attempts]);
  const shown = useMemo(() => shapes.filter(({ attemptId }) => person.has(attemptId)), [shapes, person]);
  const geometry = useMemo(() => stageGeometry(scenario), [scenario]);
  const mine = shown.filter(({ attemptId }) => person.get(attemptId) === brought);
  return (
    <figure className="log-figure-box" data-testid="class-openings" data-shapes={shown.length}>
      <div className="log-overlay">
        <OpeningDrawing
          geometry={geometry}
          tolerances={scenario.tolerances}
          shapes={[]}
          title={t('logbook.class.openingsDrawn', { count: shown.length })}
        />
        <ShapesCanvas shapes={shown} brought={mine} half_mm={halfSide_mm(geometry, [])} />
      </div>
      <DrawingLegend
        names={[
          brought === null
            ? t('logbook.class.openings', { count: shown.length })
            : t('logbook.class.brought', { count: mine.length }),
        ]}
      />
    </figure>
  );
}

/** More outlines than this are drawn with the thinnest line. */
const MOST_WIDE = 200;

/** Thousands of outlines are drawn on a canvas over the drawing; as marks on the page they would be slow. */
function ShapesCanvas({
  shapes,
  brought,
  half_mm,
}: {
  readonly shapes: readonly OpeningShape[];
  readonly brought: readonly OpeningShape[];
  readonly half_mm: number;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const theme = useView((state) => state.theme);
  useEffect(() => {
    const element = canvas.current;
    if (element === null) return;
    // it tells the size once at its start as well
    const sizes = new ResizeObserver(() => drawShapes(element, shapes, brought, half_mm));
    sizes.observe(element);
    return () => sizes.disconnect();
  }, [shapes, brought, half_mm, theme]);
  return <canvas ref={canvas} />;
}

function drawShapes(
  canvas: HTMLCanvasElement,
  shapes: readonly OpeningShape[],
  brought: readonly OpeningShape[],
  half_mm: number,
): void {
  const side = Math.round(canvas.clientWidth * devicePixelRatio);
  const ctx = canvas.getContext('2d');
  if (ctx === null || side === 0) return;
  canvas.width = side;
  canvas.height = side;
  const style = getComputedStyle(canvas);
  const px = side / (2 * half_mm);
  const trace = (outline: OpeningShape['outline_mm']) => {
    ctx.beginPath();
    for (const [x, y] of outline) ctx.lineTo(side / 2 + x * px, side / 2 - y * px);
    ctx.closePath();
    ctx.stroke();
  };
  ctx.strokeStyle = style.getPropertyValue('--pull').trim();
  // a line of one pixel of the screen is drawn several times as fast as any wider one
  ctx.lineWidth = shapes.length > MOST_WIDE ? 1 : 1.2 * devicePixelRatio;
  // many lines stay lighter each, so that where they crowd can be seen
  ctx.globalAlpha = Math.max(0.06, Math.min(0.9, 12 / Math.max(1, shapes.length))) * (brought.length > 0 ? 0.5 : 1);
  for (const { outline_mm } of shapes) trace(outline_mm);
  ctx.globalAlpha = 1;
  ctx.strokeStyle = style.getPropertyValue('--ink').trim();
  ctx.lineWidth = 2.2 * devicePixelRatio;
  for (const { outline_mm } of brought) trace(outline_mm);
}
