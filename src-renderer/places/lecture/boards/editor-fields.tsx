import { type ReactNode, useId } from 'react';
import { t } from '../../../i18n/text.ts';
import { linesAt } from './board-draft.ts';
import { useEditing } from './editor-context.ts';

interface FieldProps {
  readonly label: string;
  /** Place in the file, for the problems that belong to the field. */
  readonly path: string;
  readonly value: string;
  /** Several lines of text when set. */
  readonly rows?: number;
  readonly hint?: string;
  readonly unit?: string;
  onValue(value: string): void;
}

/** The problems of a place, as lines under its field. */
export function Wrong({ path, id }: { readonly path: string; readonly id?: string }) {
  const { problems } = useEditing();
  const lines = linesAt(problems, path);
  if (lines.length === 0) return null;
  return (
    <span className="problems" id={id} data-testid={`wrong-${path}`}>
      {lines.join('. ')}
    </span>
  );
}

/** A text or a number as it is typed, with what is wrong with it. */
export function Field({ label, path, value, rows, hint, unit, onValue }: FieldProps) {
  const id = useId();
  const { problems } = useEditing();
  const wrong = linesAt(problems, path).length > 0;
  const common = {
    id,
    value,
    'data-testid': `board-${path}`,
    'aria-invalid': wrong ? true : undefined,
    'aria-describedby': wrong ? `${id}-wrong` : undefined,
  };
  return (
    <div className="field">
      <label htmlFor={id}>{unit === undefined ? label : t('lecture.editor.withUnit', { label, unit })}</label>
      {rows === undefined ? (
        <input {...common} autoComplete="off" onChange={(event) => onValue(event.target.value)} />
      ) : (
        <textarea {...common} rows={rows} onChange={(event) => onValue(event.target.value)} />
      )}
      {hint !== undefined && <span className="hint">{hint}</span>}
      <Wrong path={path} id={`${id}-wrong`} />
    </div>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly path: string;
  readonly value: string;
  onValue(value: string): void;
  /** Options. */
  readonly children: ReactNode;
}

export function Choice({ label, path, value, onValue, children }: ChoiceProps) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} data-testid={`board-${path}`} onChange={(event) => onValue(event.target.value)}>
        {children}
      </select>
      <Wrong path={path} />
    </div>
  );
}

export function Tick({
  label,
  checked,
  testid,
  onChecked,
}: {
  readonly label: string;
  readonly checked: boolean;
  readonly testid: string;
  onChecked(checked: boolean): void;
}) {
  return (
    <label className="board-tick">
      <input
        type="checkbox"
        checked={checked}
        data-testid={testid}
        onChange={(event) => onChecked(event.target.checked)}
      />
      {label}
    </label>
  );
}
