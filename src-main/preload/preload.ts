/** Runs in the window's page, in a world of its own: the page gets the functions below and nothing of Electron. */
import { contextBridge, ipcRenderer } from 'electron';
import { HOST_CHANNEL } from '../ipc/contract.ts';
import { pageSideHost } from '../ipc/page-side.ts';

contextBridge.exposeInMainWorld(
  'rimwardHost',
  pageSideHost((method, args) => ipcRenderer.invoke(HOST_CHANNEL, method, args)),
);
