import { BrowserWindow, Menu, type MenuItemConstructorOptions } from 'electron';

/** The application menu. No "load again" in the packed program: it would throw an attempt away. */
export function buildMenu(packed: boolean): Menu {
  const forDevelopers: MenuItemConstructorOptions[] = packed
    ? []
    : [
        { type: 'separator' },
        { label: 'Load the page again', role: 'reload' },
        { label: "Show the page's insides", role: 'toggleDevTools' },
      ];
  return Menu.buildFromTemplate([
    {
      label: 'Rimward',
      submenu: [
        { label: 'About Rimward', role: 'about' },
        { type: 'separator' },
        {
          label: 'Print this page',
          accelerator: 'CmdOrCtrl+P',
          click: () => BrowserWindow.getFocusedWindow()?.webContents.print(),
        },
        { type: 'separator' },
        { label: 'Leave Rimward', role: 'quit' },
      ],
    },
    {
      label: 'Edit',
      submenu: [
        { label: 'Cut', role: 'cut' },
        { label: 'Copy', role: 'copy' },
        { label: 'Paste', role: 'paste' },
        { label: 'Select all', role: 'selectAll' },
      ],
    },
    {
      label: 'View',
      submenu: [
        { label: 'Larger text', role: 'zoomIn' },
        { label: 'Smaller text', role: 'zoomOut' },
        { label: 'Usual size', role: 'resetZoom' },
        { label: 'Fill the screen', role: 'togglefullscreen' },
        ...forDevelopers,
      ],
    },
  ]);
}
