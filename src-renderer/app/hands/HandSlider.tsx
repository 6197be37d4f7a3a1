import { HAND_RANGES, type HandNumber, useHands } from '../../stores/hands-store.ts';

/** One setting of a hand, by mouse, finger and arrow keys. */
export function HandSlider({
  of,
  label,
  shown,
}: {
  readonly of: HandNumber;
  readonly label: string;
  /** The value with its unit, as a person reads it. */
  shown(value: number): string;
}) {
  const value = useHands((state) => state[of]);
  const set = useHands((state) => state.set);
  const { least, most, step } = HAND_RANGES[of];
  return (
    <label className="hand-slider">
      <span>{label}</span>
      <input
        type="range"
        min={least}
        max={most}
        step={step}
        value={value}
        aria-valuetext={shown(value)}
        data-testid={`hands-${of}`}
        onChange={(event) => set({ [of]: Number(event.target.value) })}
      />
      <output>{shown(value)}</output>
    </label>
  );
}
