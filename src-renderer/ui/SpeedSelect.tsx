import { t } from '../i18n/text.ts';

/** Speeds in times real time, slow ones first; a lecture goes no faster than the eye does. */
export const SLOW_SPEEDS: readonly number[] = [0.1, 0.25, 0.5, 1];

/** A choice of speeds, in times real time, with its label. */
export function SpeedSelect({
  label,
  className,
  speeds,
  value,
  onValue,
  testid,
}: {
  readonly label: string;
  readonly className?: string;
  readonly speeds: readonly number[];
  readonly value: number;
  onValue(speed: number): void;
  readonly testid: string;
}) {
  return (
    <label className={className}>
      {label}{' '}
      <select value={value} onChange={(event) => onValue(Number(event.target.value))} data-testid={testid}>
        {speeds.map((one) => (
          <option key={one} value={one}>
            {t('common.speed.times', { speed: one })}
          </option>
        ))}
      </select>
    </label>
  );
}
