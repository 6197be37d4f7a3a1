import { type ReactNode, useId } from 'react';
import { t } from '../../i18n/text.ts';
import { type HandSwitch, USUAL_HANDS, useHands } from '../../stores/hands-store.ts';
import { lag_ms, STEADYING } from '../../tools/steady.ts';
import { quantity } from '../../ui/format.ts';
import { HandSlider } from './HandSlider.tsx';
import { TryHere } from './TryHere.tsx';
import './hands.css';

/** Speed of a pull for which the delay of the steadied hand is said, mm/s. */
const PULL_mm_per_s = 2;

const lagWords = (speed_mm_per_s: number): string => quantity(lag_ms(speed_mm_per_s, STEADYING), 0, 'ms');
const followed = (value: number): string => quantity(value, 2, 'mm');

/** How the person's hands work the instrument; a part of the settings. */
export function HandsPanel() {
  const leftHanded = useHands((state) => state.leftHanded);
  const set = useHands((state) => state.set);
  return (
    <section className="hands" aria-label={t('hands.title')} data-testid="hands-panel">
      <h3>{t('hands.title')}</h3>
      <p className="hint">{t('hands.hint')}</p>
      <Switch of="leftHanded" label={t('hands.leftHanded')} means={t('hands.leftHandedMeans')} />
      <Switch
        of="steadied"
        label={t('hands.steadied')}
        means={t('hands.steadiedMeans', {
          rest: lagWords(0),
          pull: lagWords(PULL_mm_per_s),
          speed: quantity(PULL_mm_per_s, 0, 'mm/s'),
        })}
      />
      <TryHere />
      <Device title={t('hands.mouse.title')} how={t('hands.mouse.how')}>
        <HandSlider of="mouse" label={t('hands.sensitivity')} shown={followed} />
      </Device>
      <Device title={t('hands.pen.title')} how={t('hands.pen.how')}>
        <HandSlider of="pen" label={t('hands.sensitivity')} shown={followed} />
        <HandSlider of="penCloses" label={t('hands.pen.closes')} shown={(value) => quantity(100 * value, 0, '%')} />
        <HandSlider
          of="penTilt_mm_per_deg"
          label={t('hands.pen.tilt')}
          shown={(value) => quantity(10 * value, 1, 'mm')}
        />
      </Device>
      <Device title={t('hands.touch.title')} how={t('hands.touch.how')}>
        <HandSlider of="touch" label={t('hands.sensitivity')} shown={followed} />
        <HandSlider of="fingerGap_px" label={t('hands.touch.gap')} shown={(value) => quantity(value, 0, 'px')} />
        <HandSlider of="fingerRest_s" label={t('hands.touch.rest')} shown={(value) => quantity(value, 2, 's')} />
      </Device>
      <Device title={t('hands.pad.title')} how={leftHanded ? t('hands.pad.howLeft') : t('hands.pad.how')}>
        <HandSlider of="padSpeed_mm_per_s" label={t('hands.pad.speed')} shown={(value) => quantity(value, 1, 'mm/s')} />
      </Device>
      <Device title={t('hands.keys.title')} how={t('hands.keys.how')}>
        <HandSlider
          of="keysSpeed_mm_per_s"
          label={t('hands.keys.speed')}
          shown={(value) => quantity(value, 1, 'mm/s')}
        />
      </Device>
      <button type="button" data-testid="hands-usual" onClick={() => set(USUAL_HANDS)}>
        {t('hands.usual')}
      </button>
    </section>
  );
}

function Switch({ of, label, means }: { readonly of: HandSwitch; readonly label: string; readonly means: string }) {
  const on = useHands((state) => state[of]);
  const set = useHands((state) => state.set);
  const id = useId();
  return (
    <div className="hand-switch">
      <label>
        <input
          type="checkbox"
          checked={on}
          aria-describedby={id}
          data-testid={`hands-${of}`}
          onChange={(event) => set({ [of]: event.target.checked })}
        />
        <span>{label}</span>
      </label>
      <p id={id} className="hint">
        {means}
      </p>
    </div>
  );
}

function Device({
  title,
  how,
  children,
}: {
  readonly title: string;
  readonly how: string;
  readonly children: ReactNode;
}) {
  return (
    <fieldset className="hand-device">
      <legend>{title}</legend>
      <p className="hint">{how}</p>
      {children}
    </fieldset>
  );
}
