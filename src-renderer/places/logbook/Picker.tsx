import type { Choice } from './attempt-filter.ts';

/** One of several, with its label. */
export function Picker({
  label,
  value,
  choices,
  onPick,
  testid,
}: {
  readonly label: string;
  readonly value: string;
  readonly choices: readonly Choice[];
  readonly onPick: (id: string) => void;
  readonly testid: string;
}) {
  return (
    <label className="log-field">
      {label}
      <select value={value} onChange={(event) => onPick(event.target.value)} data-testid={testid}>
        {choices.map((choice) => (
          <option key={choice.id} value={choice.id}>
            {choice.label}
          </option>
        ))}
      </select>
    </label>
  );
}
