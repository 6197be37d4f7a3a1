import type { Preferences } from '../../src-main/ipc/contract.ts';
import { LANGUAGES, type Language } from '../i18n/languages.ts';
import { bringLetters } from '../i18n/letters.ts';
import { speak, useLanguage } from '../i18n/text.ts';
import { type Aid, type Motion, type Theme, useView } from './view-store.ts';

const AIDS: readonly Aid[] = ['pull', 'sheet', 'resultant', 'targetCircle'];

const isLanguage = (value: unknown): value is Language => LANGUAGES.some((language) => language === value);

async function apply(kept: Preferences): Promise<void> {
  const state = useView.getState();
  const theme = kept['view.theme'];
  if (theme === 'room' || theme === 'projector') state.setTheme(theme satisfies Theme);
  const textSize = kept['view.textSize'];
  if (typeof textSize === 'number' && Number.isFinite(textSize)) state.setTextSize(textSize);
  const motion = kept['view.motion'];
  if (motion === 'system' || motion === 'less') state.setMotion(motion satisfies Motion);
  for (const aid of AIDS) {
    const on = kept[`view.aid.${aid}`];
    if (typeof on === 'boolean') state.setAid(aid, on);
  }
  const language = kept['view.language'];
  if (!isLanguage(language)) return;
  await bringLetters(language);
  speak(language);
}

/**
 * Brings back this person's look and language and keeps them when they change, where the program around the page offers that. A look
 * that cannot be kept is no reason to disturb anybody: it is only written to the console.
 */
export async function keepView(): Promise<void> {
  const host = window.rimwardHost;
  if (host === undefined) return;
  const unkept = (fault: unknown) => console.warn('preferences:', fault);
  await host.loadPreferences().then(apply).catch(unkept);
  useLanguage.subscribe(({ language }) => void host.savePreference('view.language', language).catch(unkept));
  useView.subscribe((now, before) => {
    if (now.theme !== before.theme) host.savePreference('view.theme', now.theme).catch(unkept);
    if (now.textSize !== before.textSize) host.savePreference('view.textSize', now.textSize).catch(unkept);
    if (now.motion !== before.motion) host.savePreference('view.motion', now.motion).catch(unkept);
    for (const aid of AIDS) {
      if (now.aids[aid] !== before.aids[aid]) host.savePreference(`view.aid.${aid}`, now.aids[aid]).catch(unkept);
    }
  });
}
