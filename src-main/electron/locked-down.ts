import type { App, Session } from 'electron';
import { isOurPage } from './page-address.ts';

/** No page but ours, wherever it was asked for: no navigation, no new window, no embedded view. */
export function lockNavigation(app: App): void {
  app.on('web-contents-created', (_event, contents) => {
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.on('will-navigate', (event) => event.preventDefault());
    contents.on('will-redirect', (event) => event.preventDefault());
    contents.on('will-frame-navigate', (event) => event.preventDefault());
  });
}

/** What the page itself makes (pictures, downloads) and the developer's own tools; nothing comes over a network. */
const isInside = (address: string): boolean =>
  isOurPage(address) || /^blob:app:\/\/rimward\//.test(address) || /^(data|devtools):/.test(address);

/** Refuses every permission, device and request to the outside. */
export function lockSession(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((details, answer) => answer({ cancel: !isInside(details.url) }));
  session.setSpellCheckerEnabled(false);
  session.on('will-download', (event) => event.preventDefault());
}
