import { BrowserWindow, Menu, type MenuItemConstructorOptions } from 'electron';
import { t } from '../words/words.ts';

/** The application menu in the language that is spoken. No "load again" in the packed program: it would throw an attempt away. */
export function buildMenu(packed: boolean): Menu {
  const forDevelopers: MenuItemConstructorOptions[] = packed
    ? []
    : [
        { type: 'separator' },
        { label: t('window.menu.reload'), role: 'reload' },
        { label: t('window.menu.insides'), role: 'toggleDevTools' },
      ];
  return Menu.buildFromTemplate([
    {
      label: 'Rimward',
      submenu: [
        { label: t('window.menu.about'), role: 'about' },
        { type: 'separator' },
        {
          label: t('window.menu.print'),
          accelerator: 'CmdOrCtrl+P',
          click: () => BrowserWindow.getFocusedWindow()?.webContents.print(),
        },
        { type: 'separator' },
        { label: t('window.menu.leave'), role: 'quit' },
      ],
    },
    {
      label: t('window.menu.edit'),
      submenu: [
        { label: t('window.menu.cut'), role: 'cut' },
        { label: t('window.menu.copy'), role: 'copy' },
        { label: t('window.menu.paste'), role: 'paste' },
        { label: t('window.menu.selectAll'), role: 'selectAll' },
      ],
    },
    {
      label: t('window.menu.view'),
      submenu: [
        { label: t('window.menu.larger'), role: 'zoomIn' },
        { label: t('window.menu.smaller'), role: 'zoomOut' },
        { label: t('window.menu.usual'), role: 'resetZoom' },
        { label: t('window.menu.fill'), role: 'togglefullscreen' },
        ...forDevelopers,
      ],
    },
  ]);
}
