import { type BrowserWindow, type IpcMainInvokeEvent, ipcMain } from 'electron';
import { answerCall } from '../ipc/answer.ts';
import { HOST_CHANNEL, type HostReply, type RimwardHost } from '../ipc/contract.ts';
import { isOurPage } from './page-address.ts';

/** True for a call of our own page's top frame, in our own window. */
function isFromOurPage(event: IpcMainInvokeEvent, window: BrowserWindow | null): boolean {
  const frame = event.senderFrame;
  if (frame === null || window === null || event.sender.id !== window.webContents.id) return false;
  return frame.parent === null && isOurPage(frame.url);
}

/** Answers the page's calls. A call from anywhere else is refused before anything in it is looked at. */
export function answerPage(services: Partial<RimwardHost>, window: () => BrowserWindow | null): void {
  ipcMain.handle(HOST_CHANNEL, (event, method: unknown, args: unknown): HostReply | Promise<HostReply> => {
    if (!isFromOurPage(event, window())) return { ok: false, problems: ['this call is not from the page'] };
    return answerCall(services, method, args);
  });
}
