import { useRef } from 'react';
import { t } from '../../../i18n/text.ts';
import { Explained } from '../../../ui/Explained.tsx';
import { number } from '../../../ui/format.ts';
import { NumberInput } from '../../eyes/NumberInput.tsx';
import type { OutsideTarget } from './measure-outside.ts';
import { KNOWN_LIMITS_mm, noMarks, scaleOf } from './photo-marks.ts';
import type { Outside, Tool } from './use-outside.ts';

/** Where the outline comes from, how a photograph is read, and what the opening is judged against. */
export function OutsideControls({ outside }: { readonly outside: Outside }) {
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <>
      <fieldset className="outside-box">
        <legend>{t('logbook.outside.whereFrom')}</legend>
        <div className="outside-buttons">
          {window.rimwardHost !== undefined && (
            <button type="button" data-testid="open-outline" onClick={() => void outside.openOutline()}>
              {t('logbook.outside.openOutline')}
            </button>
          )}
          <button type="button" onClick={() => chooser.current?.click()}>
            {t('logbook.outside.openPhoto')}
          </button>
          <input
            ref={chooser}
            className="for-ears"
            type="file"
            accept="image/*"
            tabIndex={-1}
            aria-label={t('logbook.outside.photograph')}
            data-testid="photo-file"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = '';
              if (file !== undefined) void outside.takePhoto(file);
            }}
          />
        </div>
        <p className="outside-hint">{t('logbook.outside.stays')}</p>
        {outside.complaints.length > 0 && (
          <ul className="outside-problems" role="alert" data-testid="outside-complaints">
            {outside.complaints.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </fieldset>
      {outside.source.kind === 'photo' && <PhotoTools outside={outside} />}
      <TargetFields outside={outside} />
    </>
  );
}

const TOOLS = [
  ['length', 'toolLength', 'toolLengthHint'],
  ['margin', 'toolMargin', 'toolMarginHint'],
  ['centre', 'toolCentre', 'toolCentreHint'],
] as const satisfies readonly (readonly [Tool, string, string])[];

/** How the scale stands and how many points the margin has, as one line. */
function scaleWords({ marks }: Outside): string {
  const scale = scaleOf(marks);
  const count = marks.margin_px.length;
  if (!scale.ok) return t('logbook.outside.noScale', { count });
  return t('logbook.outside.scale', { count, pixels: number(1 / scale.value, 1) });
}

function PhotoTools({ outside }: { readonly outside: Outside }) {
  const { marks, tool } = outside;
  const hint = TOOLS.find(([id]) => id === tool)?.[2] ?? 'toolLengthHint';
  return (
    <fieldset className="outside-box">
      <legend>{t('logbook.outside.clickSets')}</legend>
      <div className="outside-tools">
        {TOOLS.map(([id, label]) => (
          <label key={id}>
            <input
              type="radio"
              name="photo-tool"
              data-testid={`tool-${id}`}
              checked={tool === id}
              onChange={() => outside.setTool(id)}
            />
            {t(`logbook.outside.${label}`)}
          </label>
        ))}
      </div>
      <p className="outside-hint">
        {t(`logbook.outside.${hint}`)} {t('logbook.outside.marksHint')}
      </p>
      <div className="outside-field">
        <label htmlFor="known-length">{t('logbook.outside.knownIs')}</label>
        <NumberInput
          id="known-length"
          testid="known-length"
          value={marks.known_mm}
          step={0.1}
          invalid={typeof marks.known_mm !== 'number'}
          onValue={(known_mm) => outside.mark({ ...marks, known_mm }, 'known')}
          onDone={outside.settle}
        />
        <span>{'mm'}</span>
      </div>
      <p className="outside-hint">
        {t('logbook.outside.knownHint', {
          from: KNOWN_LIMITS_mm[0],
          to: KNOWN_LIMITS_mm[1],
          adults: number(noMarks.known_mm as number, 1),
        })}
      </p>
      <p data-testid="photo-scale">
        <Explained of="photoScale">{scaleWords(outside)}</Explained>
      </p>
      <div className="outside-buttons">
        <button type="button" disabled={!outside.canUndo} onClick={outside.undo}>
          {t('logbook.outside.undo')} <kbd>{'Ctrl Z'}</kbd>
        </button>
        <button type="button" disabled={!outside.canRedo} onClick={outside.redo}>
          {t('logbook.outside.redo')} <kbd>{'Ctrl Y'}</kbd>
        </button>
        <button
          type="button"
          disabled={marks.margin_px.length === 0}
          onClick={() => {
            outside.settle();
            outside.mark({ ...marks, margin_px: noMarks.margin_px }, 'clear');
            outside.settle();
          }}
        >
          {t('logbook.outside.clear')}
        </button>
      </div>
    </fieldset>
  );
}

const FIELDS = ['target_mm', 'optic_mm', 'x_mm', 'y_mm'] as const satisfies readonly (keyof OutsideTarget)[];

function TargetFields({ outside }: { readonly outside: Outside }) {
  const { target, source } = outside;
  const shown = source.kind === 'photo' ? FIELDS.slice(0, 2) : FIELDS;
  return (
    <fieldset className="outside-box">
      <legend>{t('logbook.outside.judgedAgainst')}</legend>
      {shown.map((key) => (
        <div className="outside-field" key={key}>
          <label htmlFor={`outside-${key}`}>{t(`logbook.outside.${key}`)}</label>
          <NumberInput
            id={`outside-${key}`}
            testid={`outside-${key}`}
            value={target[key]}
            step={0.1}
            invalid={typeof target[key] !== 'number'}
            onValue={(value) => outside.setTarget({ ...target, [key]: value })}
          />
          <span>{'mm'}</span>
        </div>
      ))}
    </fieldset>
  );
}
