import { create } from 'zustand';
import { t } from '../../i18n/text.ts';
import { faultWords, storeHost } from './store-host.ts';

/** One line about the last thing that was saved or could not be done; null while there is nothing to say. */
export const useNotice = create<{ readonly notice: string | null; readonly bad: boolean }>(() => ({
  notice: null,
  bad: false,
}));

export const say = (notice: string | null, bad = false): void => useNotice.setState({ notice, bad });

/** Does something that may fail, and says what went wrong. @returns null when it failed */
export async function tryOrSay<T>(work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (fault) {
    say(faultWords(fault), true);
    return null;
  }
}

/** Asks where to put a text and says where it went. */
export async function saveText(suggestedName: string, text: string): Promise<void> {
  const name = await tryOrSay(() => storeHost().saveTextFile(suggestedName, text));
  if (name !== null) say(t('logbook.said.saved', { name }));
}
