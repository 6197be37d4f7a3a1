import { useRef, useState } from 'react';
import { STEP_S } from '../../../../physics/index.ts';
import { SLOW_SPEEDS, SpeedSelect } from '../../../ui/SpeedSelect.tsx';
import { useAgeCharts } from '../charts/age-store.ts';
import { twinEngine, useTwin } from '../twin/twin-store.ts';
import { cancelExport, makeAndSave, useExport } from './export-store.ts';
import { CHART_CHOICES, type ChartId, savedCsv, savedSvg } from './saved-charts.ts';
import { type Span, usualSpan } from './span.ts';
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
        Save
      </button>
      <dialog ref={dialog} className="save" aria-label="Save" onClose={() => setOpen(false)} data-testid="save">
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
      <h2>Save</h2>
      <section>
        <h3>What is seen now</h3>
        <button
          type="button"
          disabled={busy}
          data-testid="save-picture"
          onClick={() =>
            void makeAndSave('the picture', async () => {
              const { viewPicture } = await import('./picture.ts');
              return { title: viewTitle(), ending: 'png', content: await viewPicture() };
            })
          }
        >
          Save the picture
        </button>
        <span className="hint">Both eyes and the plots shown, at twice the size (PNG).</span>
      </section>
      <SpanPart busy={busy} />
      <ChartPart busy={busy} />
      <Outcome />
      <p className="buttons">
        <button type="button" onClick={onClose} data-testid="close-save">
          Close
        </button>
      </p>
    </>
  );
}

/** Names of the eyes, for the name of a file. */
function viewTitle(): string {
  const { left, right } = useTwin.getState();
  return [left?.label, right?.label].filter((label) => label !== undefined).join(' and ');
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
    makeAndSave('the film', async (signal, tell) => {
      if (span === null) return null;
      const { record } = await import('./recording.ts');
      const content = await record({ span, speed }, signal, tell);
      return content && { title: viewTitle(), ending: 'webm', content };
    });
  const page = () =>
    makeAndSave('the page', async (signal, tell) => {
      if (span === null) return null;
      const { boardFile } = await import('./board-file.tsx');
      const file = await boardFile(span, signal, tell);
      return file && { title: file.title, ending: 'html', content: file.text };
    });
  return (
    <section>
      <h3>A span of time</h3>
      <div className="save-fields">
        <Seconds label="From, s" value={from} onChange={setFrom} testid="save-from" />
        <Seconds label="To, s" value={to} onChange={setTo} testid="save-to" />
        <SpeedSelect
          label="Speed of the film"
          className="field"
          speeds={SLOW_SPEEDS.toReversed()}
          value={speed}
          onValue={setSpeed}
          testid="save-speed"
        />
      </div>
      {span === null && (
        <p className="problems" role="alert">
          From and to must lie between 0 and {secondsText(lastStep)} s, which is as far as the eyes have come, and from
          before to.
        </p>
      )}
      <button type="button" disabled={busy || span === null} onClick={() => void film()} data-testid="save-film">
        Save a film
      </button>
      <span className="hint">Both eyes (WebM). It may take longer than it plays.</span>
      <br />
      <button type="button" disabled={busy || span === null} onClick={() => void page()} data-testid="save-page">
        Save a page that replays
      </button>
      <span className="hint">The board and both eyes in one file; opens in any browser, without a network (HTML).</span>
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
  const [chart, setChart] = useState<ChartId>(CHART_CHOICES[0]!.id);
  return (
    <section>
      <h3>A plot or chart</h3>
      <label className="field">
        Which
        <select
          value={chart}
          onChange={(event) => setChart(event.target.value as ChartId)}
          data-testid="save-chart-choice"
        >
          {CHART_CHOICES.map(({ id, label }) => (
            <option key={id} value={id}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        disabled={busy}
        onClick={() => void makeAndSave('the numbers', async () => savedCsv(chart))}
        data-testid="save-csv"
      >
        Save the numbers
      </button>
      <span className="hint">For a spreadsheet (CSV).</span>
      <br />
      <button
        type="button"
        disabled={busy}
        onClick={() => void makeAndSave('the drawing', () => savedSvg(chart))}
        data-testid="save-svg"
      >
        Save the drawing
      </button>
      <span className="hint">For print and slides (SVG).</span>
    </section>
  );
}

function Outcome() {
  const { making, share, notice, bad } = useExport();
  if (making !== null)
    return (
      <div className="save-progress" data-testid="save-progress">
        <progress value={share} max={1} aria-label={`Making ${making}`} />
        <span role="status">
          Making {making}: {Math.round(100 * share)} %
        </span>
        <button type="button" onClick={cancelExport} data-testid="save-cancel">
          Cancel
        </button>
      </div>
    );
  return (
    <p className={bad ? 'problems' : 'hint'} role="status" data-testid="save-notice">
      {notice}
    </p>
  );
}
