import { useEffect, useState } from 'react';
import { LANGUAGES, type Language } from '../../i18n/languages.ts';
import { bringLetters, needsLetters } from '../../i18n/letters.ts';
import { speak, t, useLanguage } from '../../i18n/text.ts';
import { type Motion, type Theme, useView } from '../../stores/view-store.ts';
import { number } from '../../ui/format.ts';

interface Option<T extends string | number> {
  readonly value: T;
  readonly label: string;
  /** Where the label is in a language of its own. */
  readonly lang?: string;
  /** The letters of the label are on their way: nothing is drawn in its place. Boxes, once drawn, may stay. */
  readonly waits?: boolean;
}

/** One of a few, by mouse and by arrow keys. */
function Choice<T extends string | number>({
  name,
  title,
  options,
  value,
  onValue,
}: {
  readonly name: string;
  readonly title: string;
  readonly options: readonly Option<T>[];
  readonly value: T;
  onValue(value: T): void;
}) {
  return (
    <fieldset className="settings-choice">
      <legend>{title}</legend>
      {options.map((option) => (
        <label key={option.value} lang={option.lang}>
          <input
            type="radio"
            name={`settings-${name}`}
            checked={option.value === value}
            onChange={() => onValue(option.value)}
            data-testid={`${name}-${option.value}`}
            aria-label={option.waits ? option.label : undefined}
          />
          <span>{option.waits ? '' : option.label}</span>
        </label>
      ))}
    </fieldset>
  );
}

async function change(language: Language): Promise<void> {
  await bringLetters(language);
  speak(language);
}

/** Each language by its own name, so that it is found by who reads no other. */
export function LanguageChoice() {
  const language = useLanguage((state) => state.language);
  const [waits, setWaits] = useState(true);
  useEffect(() => {
    let gone = false;
    void Promise.all(LANGUAGES.map(bringLetters)).then(() => {
      if (!gone) setWaits(false);
    });
    return () => {
      gone = true;
    };
  }, []);
  return (
    <Choice
      name="language"
      title={t('common.settings.language')}
      options={LANGUAGES.map((value) => ({
        value,
        lang: value,
        label: t('common.language.name', { lng: value }),
        waits: waits && needsLetters(value),
      }))}
      value={language}
      onValue={(value) => void change(value)}
    />
  );
}

export function LookChoice() {
  const theme = useView((state) => state.theme);
  const setTheme = useView((state) => state.setTheme);
  const options: readonly Option<Theme>[] = [
    { value: 'room', label: t('common.settings.room') },
    { value: 'projector', label: t('common.settings.projector') },
  ];
  return <Choice name="look" title={t('common.settings.look')} options={options} value={theme} onValue={setTheme} />;
}

const TEXT_SIZES: readonly number[] = [1, 1.25, 1.5, 1.75, 2];

export function TextSizeChoice() {
  const textSize = useView((state) => state.textSize);
  const setTextSize = useView((state) => state.setTextSize);
  const options = TEXT_SIZES.map((value) => ({
    value,
    label: t('common.settings.percent', { percent: number(100 * value, 0) }),
  }));
  return (
    <Choice
      name="text-size"
      title={t('common.settings.textSize')}
      options={options}
      value={textSize}
      onValue={setTextSize}
    />
  );
}

export function MotionChoice() {
  const motion = useView((state) => state.motion);
  const setMotion = useView((state) => state.setMotion);
  const options: readonly Option<Motion>[] = [
    { value: 'system', label: t('common.settings.motionSystem') },
    { value: 'less', label: t('common.settings.motionLess') },
  ];
  return (
    <Choice name="motion" title={t('common.settings.motion')} options={options} value={motion} onValue={setMotion} />
  );
}
