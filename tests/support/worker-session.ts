import type { CDPSession } from 'playwright';

/** The page's worker, talked to through the page's session. */
export interface WorkerSession {
  readonly ask: (method: string) => Promise<unknown>;
  /** Addresses of the scripts and modules that the worker has compiled, once `Debugger.enable` has been asked. */
  readonly compiled: readonly string[];
}

/** Attaches to the worker that runs already; null when there is none. */
export async function attachToWorker(session: CDPSession): Promise<WorkerSession | null> {
  let id = '';
  session.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => {
    if (targetInfo.type === 'worker') id = sessionId;
  });
  await session.send('Target.setAutoAttach', { autoAttach: true, waitForDebuggerOnStart: false, flatten: false });
  if (id === '') return null;
  const compiled: string[] = [];
  const waiting = new Map<number, (result: unknown) => void>();
  session.on('Target.receivedMessageFromTarget', ({ sessionId, message }) => {
    if (sessionId !== id) return;
    const said = JSON.parse(message);
    if (said.method === 'Debugger.scriptParsed') compiled.push(said.params.url);
    waiting.get(said.id)?.(said.result);
    waiting.delete(said.id);
  });
  let calls = 0;
  const ask = (method: string): Promise<unknown> => {
    calls += 1;
    const message = JSON.stringify({ id: calls, method });
    const answer = new Promise((resolve) => waiting.set(calls, resolve));
    return session.send('Target.sendMessageToTarget', { sessionId: id, message }).then(() => answer);
  };
  return { ask, compiled };
}

/** What modules of WebAssembly are called in that list. */
export const isModule = (address: string): boolean => address.startsWith('wasm://');
