import { t } from '../i18n/text.ts';
import type { FromTwin, ToTwin } from './twin-messages.ts';

/** One eye of a pair as the page reaches it. */
export interface TwinLink {
  post(message: ToTwin): void;
  close(): void;
}

/** An eye in a worker of its own, so that two eyes use two cores. */
export function openTwin(heard: (message: FromTwin) => void): TwinLink {
  const worker = new Worker(new URL('./twin-worker.ts', import.meta.url), { type: 'module' });
  let run = 0;
  worker.addEventListener('message', ({ data }: MessageEvent<FromTwin>) => heard(data));
  worker.addEventListener('error', (event) =>
    heard({ kind: 'fault', run, message: event.message || t('lecture.eye.notLoaded') }),
  );
  return {
    post: (message) => {
      run = message.run;
      worker.postMessage(message);
    },
    close: () => worker.terminate(),
  };
}
