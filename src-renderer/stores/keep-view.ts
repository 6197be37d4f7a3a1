import type { Preferences } from '../../src-main/ipc/contract.ts';
import { type Aid, type Theme, useView } from './view-store.ts';

const AIDS: readonly Aid[] = ['pull', 'sheet', 'resultant', 'targetCircle'];

function apply(kept: Preferences): void {
  const state = useView.getState();
  const theme = kept['view.theme'];
  if (theme === 'room' || theme === 'projector') state.setTheme(theme satisfies Theme);
  for (const aid of AIDS) {
    const on = kept[`view.aid.${aid}`];
    if (typeof on === 'boolean') state.setAid(aid, on);
  }
}

/**
 * Brings back this person's look and keeps it when it changes, where the program around the page offers that. A look
 * that cannot be kept is no reason to disturb anybody: it is only written to the console.
 */
export async function keepView(): Promise<void> {
  const host = window.rimwardHost;
  if (host === undefined) return;
  const unkept = (fault: unknown) => console.warn('preferences:', fault);
  await host.loadPreferences().then(apply).catch(unkept);
  useView.subscribe((now, before) => {
    if (now.theme !== before.theme) host.savePreference('view.theme', now.theme).catch(unkept);
    for (const aid of AIDS) {
      if (now.aids[aid] !== before.aids[aid]) host.savePreference(`view.aid.${aid}`, now.aids[aid]).catch(unkept);
    }
  });
}
