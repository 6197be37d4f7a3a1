import { languageOf } from '../../src-renderer/i18n/languages.ts';
import type { Preferences, RimwardHost } from '../ipc/contract.ts';
import { speak } from '../words/words.ts';

type Kept = Pick<RimwardHost, 'loadPreferences' | 'savePreference'>;

/** Under which the page keeps the language that the person chose. */
const LANGUAGE = 'view.language';

export interface FollowedLanguage {
  /** Keeps a preference; a language is spoken from then on, in dialogs at once. */
  readonly savePreference: RimwardHost['savePreference'];
  /** Speaks the language that was kept, else the first of the system's that is one of ours. */
  speakFirst(system: readonly string[]): Promise<void>;
}

/** @param changed called when another language is spoken: what stands there in words must be made anew */
export function followLanguage({ loadPreferences, savePreference }: Kept, changed: () => void): FollowedLanguage {
  return {
    savePreference: async (key, value) => {
      await savePreference(key, value);
      if (key !== LANGUAGE) return;
      speak(languageOf([value]));
      changed();
    },
    speakFirst: async (system) => {
      // A folder that cannot be read keeps no window from opening; the store tells of it.
      const kept: Preferences = await loadPreferences().catch(() => ({}));
      speak(languageOf([kept[LANGUAGE], ...system]));
    },
  };
}
