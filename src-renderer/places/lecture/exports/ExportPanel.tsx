import { useRef, useState } from 'react';
import { STEP_S } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { number, quantity } from '../../../ui/format.ts';
import { SLOW_SPEEDS, SpeedSelect } from '../../../ui/SpeedSelect.tsx';
import { useAgeCharts } from '../charts/age-store.ts';
import { twinEngine, useTwin } from '../twin/twin-store.ts';
import { cancelExport, makeAndSave, useExport } from './export-store.ts';
import { CHART_IDS, type ChartId, chartName, savedCsv, savedSvg } from './saved-charts.ts';
import { type Span, usualSpan } from './span.ts';
import { viewTitle } from './view-title.ts';
import './exports.css';

/** Saves what is seen: as a picture, a film, a page that replays, or the numbers of a chart. */
export function ExportPanel() {
  const dialog = useRef<HTMLDialogElement>(null);
  const [open, setOpen] = useState(false);
  const show = () => {
    twinEngine.play(false);
    setOpen(true);
    dialog.current?.showModal();
    // what was computed before is there to be saved as well
    void useAgeCharts.getState().look();
  };
  return (
    <>
      <button type="button" onClick={show} aria-haspopup="dialog" data-testid="open-save">
        {t('lecture.save.title')}
      </button>
      <dialog
        ref={dialog}
        className="save"
        aria-label={t('lecture.save.title')}
        onClose={() => setOpen(false)}
        data-testid="save"
      >
        {open && <SaveForm onClose={() => dialog.current?.close()} />}
      </dialog>
    </>
  );
}

function SaveForm({ onClose }: { readonly onClose: () => void }) {
  const making = useExport((state) => state.making);
  const ready = useTwin((state) => state.left?.view != null);
  const busy = making !== null || !ready;
  return (
    <>
      <h2>{t('lecture.save.title')}</h2>
      <section>
        <h3>{t('lecture.save.now')}</h3>
        <button
          type="button"
          disabled={busy}
          data-testid="save-picture"
          onClick={() =>
            void makeAndSave(t('lecture.save.thePicture'), async () => {
              const { viewPicture } = await import('./picture.ts');
              return { title: viewTitle(), ending: 'png', content: await viewPicture() };
            })
          }
        >
          {t('lecture.save.picture')}
        </button>
        <span className="hint">{t('lecture.save.pictureHint')}</span>
      </section>
      <SpanPart busy={busy} />
      <ChartPart busy={busy} />
      <Outcome />
      <p className="buttons">
        <button type="button" onClick={onClose} data-testid="close-save">
          {t('lecture.save.close')}
        </button>
      </p>
    </>
  );
}

const stepOf = (seconds: string): number => Math.round(Number(seconds) / STEP_S);
const secondsText = (step: number): string => (step * STEP_S).toFixed(2);

/** The span as the fields have it; null where it is none. */
function spanOf(from: string, to: string, lastStep: number): Span | null {
  const span = { from: stepOf(from), to: stepOf(to) };
  const sound = from.trim() !== '' && to.trim() !== '' && span.from >= 0 && span.to > span.from && span.to <= lastStep;
  return sound ? span : null;
}

function SpanPart({ busy }: { readonly busy: boolean }) {
  const { lastStep, loop } = useTwin();
  const [first] = useState(() => usualSpan({ loop, lastStep }));
  const [from, setFrom] = useState(secondsText(first.from));
  const [to, setTo] = useState(secondsText(first.to));
  const [speed, setSpeed] = useState(1);
  const span = spanOf(from, to, lastStep);
  const film = () =>
    makeAndSave(t('lecture.save.theFilm'), async (signal, tell) => {
      if (span === null) return null;
      const { record } = await import('./recording.ts');
      const content = await record({ span, speed }, signal, tell);
      return content && { title: viewTitle(), ending: 'webm', content };
    });
  const page = () =>
    makeAndSave(t('lecture.save.thePage'), async (signal, tell) => {
      if (span === null) return null;
      const { boardFile } = await import('./board-file.tsx');
      const file = await boardFile(span, signal, tell);
      return file && { title: file.title, ending: 'html', content: file.text };
    });
  return (
    <section>
      <h3>{t('lecture.save.span')}</h3>
      <div className="save-fields">
        <Seconds label={t('lecture.save.from')} value={from} onChange={setFrom} testid="save-from" />
        <Seconds label={t('lecture.save.to')} value={to} onChange={setTo} testid="save-to" />
        <SpeedSelect
          label={t('lecture.save.speed')}
          className="field"
          speeds={SLOW_SPEEDS.toReversed()}
          value={speed}
          onValue={setSpeed}
          testid="save-speed"
        />
      </div>
      {span === null && (
        <p className="problems" role="alert">
          {t('lecture.save.badSpan', { last: quantity(lastStep * STEP_S, 2, 's') })}
        </p>
      )}
      <button type="button" disabled={busy || span === null} onClick={() => void film()} data-testid="save-film">
        {t('lecture.save.film')}
      </button>
      <span className="hint">{t('lecture.save.filmHint')}</span>
      <br />
      <button type="button" disabled={busy || span === null} onClick={() => void page()} data-testid="save-page">
        {t('lecture.save.page')}
      </button>
      <span className="hint">{t('lecture.save.pageHint')}</span>
    </section>
  );
}

interface SecondsProps {
  readonly label: string;
  readonly value: string;
  readonly testid: string;
  onChange(value: string): void;
}

const Seconds = ({ label, value, testid, onChange }: SecondsProps) => (
  <label className="field">
    {label}
    <input
      type="number"
      min="0"
      step="0.1"
      value={value}
      onChange={(event) => onChange(event.target.value)}
      data-testid={testid}
    />
  </label>
);

function ChartPart({ busy }: { readonly busy: boolean }) {
  const [chart, setChart] = useState<ChartId>(CHART_IDS[0]!);
  return (
    <section>
      <h3>{t('lecture.save.chart')}</h3>
      <label className="field">
        {t('lecture.save.which')}
        <select
          value={chart}
          onChange={(event) => setChart(event.target.value as ChartId)}
          data-testid="save-chart-choice"
        >
          {CHART_IDS.map((id) => (
            <option key={id} value={id}>
              {chartName(id)}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        disabled={busy}
        onClick={() => void makeAndSave(t('lecture.save.theNumbers'), async () => savedCsv(chart))}
        data-testid="save-csv"
      >
        {t('lecture.save.csv')}
      </button>
      <span className="hint">{t('lecture.save.csvHint')}</span>
      <br />
      <button
        type="button"
        disabled={busy}
        onClick={() => void makeAndSave(t('lecture.save.theDrawing'), () => savedSvg(chart))}
        data-testid="save-svg"
      >
        {t('lecture.save.svg')}
      </button>
      <span className="hint">{t('lecture.save.svgHint')}</span>
    </section>
  );
}

function Outcome() {
  const { making, share, notice, bad } = useExport();
  if (making !== null)
    return (
      <div className="save-progress" data-testid="save-progress">
        <progress value={share} max={1} aria-label={t('lecture.save.making', { what: making })} />
        <span role="status">{t('lecture.save.makingShare', { what: making, share: number(100 * share, 0) })}</span>
        <button type="button" onClick={cancelExport} data-testid="save-cancel">
          {t('lecture.save.cancel')}
        </button>
      </div>
    );
  return (
    <p className={bad ? 'problems' : 'hint'} role="status" data-testid="save-notice">
      {notice}
    </p>
  );
}
