import { type DragEvent, useEffect, useMemo, useState } from 'react';
import { formatProblem, type Problem } from '../../../../physics/index.ts';
import { CompareAttempts, type Compared } from './CompareAttempts.tsx';
import { KeptOpenings } from './KeptOpenings.tsx';
import { MetricsBeside } from './MetricsBeside.tsx';
import { outlineCsv } from './measure-outside.ts';
import { type DrawnOpening, OpeningDrawing } from './OpeningDrawing.tsx';
import { OutsideControls } from './OutsideControls.tsx';
import { PhotoBoard } from './PhotoBoard.tsx';
import { type MarkName, markAt, withMarginPoint, withMark, withoutMark } from './photo-marks.ts';
import { type Outside, useOutside } from './use-outside.ts';
import './outside.css';
import { t } from '../../../i18n/text.ts';
import { problemWords } from '../../../ui/problem-words.ts';

const fieldOf = (name: MarkName): string => (name.of === 'centre' ? 'centre' : `${name.of}-${name.index}`);

/** An opening made elsewhere, in the wet lab or in theatre: the same measures and the same drawing as a simulated one. */
export function OutsideOpening() {
  const outside = useOutside();
  const [compared, setCompared] = useState<readonly Compared[]>([]);
  useUndoKeys(outside);
  const { source, measured } = outside;
  const good = measured?.ok === true ? measured.value : null;
  const drawn = useMemo((): readonly DrawnOpening[] => {
    const own = good === null ? [] : [{ key: 'outside', label: nameOf(outside), outline_mm: good.outline_mm }];
    return [...own, ...compared.map(({ id, label, outline_mm }) => ({ key: id, label, outline_mm }))];
  }, [good, compared, outside]);
  const dropped = (event: DragEvent) => {
    event.preventDefault();
    const [file] = event.dataTransfer.files;
    if (file !== undefined) void outside.takePhoto(file);
  };
  return (
    <section
      className="outside"
      aria-label={t('logbook.outside.label')}
      onDragOver={(event) => event.preventDefault()}
      onDrop={dropped}
    >
      <div className="outside-side">
        <OutsideControls outside={outside} />
        <CompareAttempts chosen={compared} onChoose={setCompared} />
        {window.rimwardHost !== undefined && <KeptOpenings outside={outside} name={nameOf(outside)} />}
      </div>
      <div className="outside-main">
        {source.kind === 'photo' && <Board outside={outside} />}
        <div className="outside-result">
          {measured !== null && !measured.ok && <Problems problems={measured.problems} started={source.kind} />}
          {drawn.length > 0 && (
            <OpeningDrawing
              openings={drawn}
              targetDiameter_mm={numberOr(outside.target.target_mm, 5)}
              opticDiameter_mm={numberOr(outside.target.optic_mm, 6)}
              title={t('logbook.outside.drawing', { names: drawn.map(({ label }) => label).join(', ') })}
            />
          )}
          {(good !== null || compared.length > 0) && (
            <MetricsBeside name={nameOf(outside)} opening={good?.opening ?? null} compared={compared} />
          )}
          {good !== null && (
            <div className="outside-buttons">
              <button type="button" onClick={() => void outside.saveOutline(outlineCsv(good.outline_mm))}>
                {t('logbook.outside.saveOutline')}
              </button>
            </div>
          )}
          <p className="outside-hint">{t('common.caution')}</p>
        </div>
      </div>
    </section>
  );
}

const numberOr = (value: number | string, usual: number): number =>
  typeof value === 'number' && value > 0 && value <= 50 ? value : usual;

function nameOf({ source }: Outside): string {
  if (source.kind === 'file') return source.name;
  return source.kind === 'photo' ? source.photo.name : t('logbook.outside.fromOutside');
}

function Board({ outside }: { readonly outside: Outside }) {
  const { source, marks, tool } = outside;
  if (source.kind !== 'photo') return null;
  return (
    <PhotoBoard
      photo={source.photo}
      marks={marks}
      onPlace={(at, reach_px) => {
        outside.settle();
        if (tool === 'margin') outside.mark(withMarginPoint(marks, at, reach_px), 'add');
        else if (tool === 'centre') outside.mark({ ...marks, centre_px: at }, 'add');
        else if (marks.ends_px.length < 2) {
          outside.mark({ ...marks, ends_px: [...marks.ends_px, at] }, 'add');
          if (marks.ends_px.length === 1) outside.setTool('margin');
        } else {
          const far = (index: 0 | 1) => Math.hypot(at[0] - marks.ends_px[index]![0], at[1] - marks.ends_px[index]![1]);
          outside.mark(withMark(marks, { of: 'end', index: far(0) <= far(1) ? 0 : 1 }, at), 'add');
        }
        outside.settle();
      }}
      onMove={(name, to) => outside.mark(withMark(marks, name, to), fieldOf(name))}
      onMoved={outside.settle}
      onRemove={(name) => {
        if (markAt(marks, name) !== null) outside.mark(withoutMark(marks, name), 'remove');
        outside.settle();
      }}
    />
  );
}

/** What keeps the outline from being measured. While points are still being set it is a to-do, not an alarm. */
function Problems({ problems, started }: { readonly problems: readonly Problem[]; readonly started: string }) {
  return (
    <div className="outside-problems" data-testid="outside-problems" role={started === 'file' ? 'alert' : 'status'}>
      <b>{t(started === 'file' ? 'logbook.outside.cannotMeasure' : 'logbook.outside.notYet')}</b>
      <ul>
        {problems.map((problem) => (
          <li key={formatProblem(problem)}>{problemWords(problem)}</li>
        ))}
      </ul>
    </div>
  );
}

function useUndoKeys({ undo, redo }: Outside): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) undo();
      else if (key === 'y' || (key === 'z' && event.shiftKey)) redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [undo, redo]);
}
