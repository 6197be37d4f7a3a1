import { t } from '../../../i18n/text.ts';
import type { Spoken } from '../../../ui/StageVoice.tsx';
import { tipWords } from '../../../ui/tip-words.ts';
import type { TwinSideState } from '../contract.ts';
import { useTwin } from './twin-store.ts';

function eyeWords({ label, view, geometry }: TwinSideState): string | null {
  if (view === null || geometry === null) return null;
  return t('common.voice.eye', { eye: label, words: tipWords(view, geometry.target.centre_mm) });
}

/** Both eyes at the moment shown, for who hears the page. Null while nothing is shown. */
export function twinSpoken(): Spoken | null {
  const { left, right, step, setup } = useTwin.getState();
  const eyes = [left, right].filter((eye) => eye !== null);
  const words = eyes.map(eyeWords).filter((one) => one !== null);
  if (words.length === 0) return null;
  const labels = new Map(eyes.flatMap(({ label, events }) => events.map((event) => [event, label] as const)));
  return {
    of: setup,
    events: [...labels.keys()].filter((event) => event.step <= step).sort((a, b) => a.step - b.step),
    name: (event) => labels.get(event) ?? '',
    words: words.join(' '),
    torn_mm: eyes.reduce((sum, { view }) => sum + (view?.torn_mm ?? 0), 0),
  };
}
