import { useRef } from 'react';
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
        <legend>Where it comes from</legend>
        <div className="outside-buttons">
          {window.rimwardHost !== undefined && (
            <button type="button" data-testid="open-outline" onClick={() => void outside.openOutline()}>
              Open an outline
            </button>
          )}
          <button type="button" onClick={() => chooser.current?.click()}>
            Open a photograph
          </button>
          <input
            ref={chooser}
            className="for-ears"
            type="file"
            accept="image/*"
            tabIndex={-1}
            aria-label="Photograph"
            data-testid="photo-file"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = '';
              if (file !== undefined) void outside.takePhoto(file);
            }}
          />
        </div>
        <p className="outside-hint">
          An outline is a CSV or JSON file of points x, y in mm, y upward. A photograph stays in this window: it is sent
          nowhere, and it is not kept unless you ask for that below.
        </p>
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

const TOOLS: readonly (readonly [Tool, string, string])[] = [
  [
    'length',
    'Known length',
    'Click the two ends of something whose length you know, such as the cornea from side to side.',
  ],
  ['margin', 'Margin', 'Click round the margin of the opening. A click on a line puts a point into it.'],
  [
    'centre',
    'Centre',
    'Click the centre that the opening should be judged about. Left alone it is the middle of the known length.',
  ],
];

function PhotoTools({ outside }: { readonly outside: Outside }) {
  const { marks, tool } = outside;
  const scale = scaleOf(marks);
  const hint = TOOLS.find(([id]) => id === tool)?.[2];
  return (
    <fieldset className="outside-box">
      <legend>A click on the photograph sets</legend>
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
            {label}
          </label>
        ))}
      </div>
      <p className="outside-hint">{hint} Drag a mark to move it; double-click or Delete removes it.</p>
      <div className="outside-field">
        <label htmlFor="known-length">The known length is</label>
        <NumberInput
          id="known-length"
          testid="known-length"
          value={marks.known_mm}
          step={0.1}
          invalid={typeof marks.known_mm !== 'number'}
          onValue={(known_mm) => outside.mark({ ...marks, known_mm }, 'known')}
          onDone={outside.settle}
        />
        <span>mm</span>
      </div>
      <p className="outside-hint">
        {KNOWN_LIMITS_mm[0]} to {KNOWN_LIMITS_mm[1]} mm. Put in what was measured on this eye; 11.7 mm is only the mean
        corneal diameter of adults (Rüfer 2005), about 10 mm at birth. An error here scales every length alike.
      </p>
      <p data-testid="photo-scale">
        {scale.ok ? `1 mm is ${(1 / scale.value).toFixed(1)} pixels` : 'Scale not set yet'}, {marks.margin_px.length}{' '}
        points on the margin
      </p>
      <div className="outside-buttons">
        <button type="button" disabled={!outside.canUndo} onClick={outside.undo}>
          Undo <kbd>Ctrl Z</kbd>
        </button>
        <button type="button" disabled={!outside.canRedo} onClick={outside.redo}>
          Redo <kbd>Ctrl Y</kbd>
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
          Clear the margin
        </button>
      </div>
    </fieldset>
  );
}

const FIELDS: readonly (readonly [keyof OutsideTarget, string])[] = [
  ['target_mm', 'Target diameter'],
  ['optic_mm', 'Optic diameter'],
  ['x_mm', 'Centre, to the right'],
  ['y_mm', 'Centre, upward'],
];

function TargetFields({ outside }: { readonly outside: Outside }) {
  const { target, source } = outside;
  const shown = source.kind === 'photo' ? FIELDS.slice(0, 2) : FIELDS;
  return (
    <fieldset className="outside-box">
      <legend>Judged against</legend>
      {shown.map(([key, label]) => (
        <div className="outside-field" key={key}>
          <label htmlFor={`outside-${key}`}>{label}</label>
          <NumberInput
            id={`outside-${key}`}
            testid={`outside-${key}`}
            value={target[key]}
            step={0.1}
            invalid={typeof target[key] !== 'number'}
            onValue={(value) => outside.setTarget({ ...target, [key]: value })}
          />
          <span>mm</span>
        </div>
      ))}
    </fieldset>
  );
}
