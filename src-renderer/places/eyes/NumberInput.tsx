import { type KeyboardEvent, useState } from 'react';
import { decimalSign } from '../../ui/plain-number.ts';
import { typedNumber } from './draft.ts';
import './number-input.css';

export interface NumberInputProps {
  readonly id?: string;
  readonly testid?: string;
  readonly label?: string;
  /** A number, the text that was typed instead of one, or nothing. */
  readonly value: number | string | undefined;
  /** What the arrow keys add. */
  readonly step: number;
  readonly invalid?: boolean;
  readonly describedBy?: string;
  readonly placeholder?: string;
  onValue(value: number | string): void;
  onDone?(): void;
}

function shown(value: number | string | undefined): string {
  if (value === undefined) return '';
  return typeof value === 'number' ? String(value).replace('.', decimalSign()) : value;
}

/** A number as it is typed: nothing is changed under the person's hands, and what is no number is passed on as text. */
export function NumberInput(props: NumberInputProps) {
  const { value, step, onValue } = props;
  const [text, setText] = useState<string | null>(null);
  // an undo while the field is in use must show; else the text stays as it was typed
  const visible = text !== null && typedNumber(text) === value ? text : shown(value);
  const stepped = (event: KeyboardEvent) => {
    if (typeof value !== 'number' || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return;
    event.preventDefault();
    const sign = event.key === 'ArrowUp' ? 1 : -1;
    const size = event.shiftKey ? 10 * step : step;
    onValue(Number((value + sign * size).toPrecision(10)));
  };
  return (
    <input
      id={props.id}
      data-testid={props.testid}
      aria-label={props.label}
      className="number-input"
      type="text"
      inputMode="decimal"
      autoComplete="off"
      spellCheck={false}
      value={visible}
      placeholder={props.placeholder}
      aria-invalid={props.invalid === true ? true : undefined}
      aria-describedby={props.describedBy}
      onChange={(event) => {
        setText(event.target.value);
        onValue(typedNumber(event.target.value));
      }}
      onKeyDown={stepped}
      onBlur={() => {
        setText(null);
        props.onDone?.();
      }}
    />
  );
}
