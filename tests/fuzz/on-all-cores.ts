import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';

/**
 * Has a worker on each core take tasks, one at a time, until there are none.
 *
 * @param nextTask null when there are no more
 * @param heard called with each answer before the worker is given its next task
 * @returns the answers of each worker, in its own order
 */
export function onAllCores<Task, Answer>(
  script: URL,
  nextTask: () => Task | null,
  heard: (answer: Answer) => void = () => undefined,
): Promise<readonly (readonly Answer[])[]> {
  const work = () =>
    new Promise<readonly Answer[]>((resolve, reject) => {
      const answers: Answer[] = [];
      const worker = new Worker(script);
      const ask = () => {
        const task = nextTask();
        if (task === null) void worker.terminate().then(() => resolve(answers), reject);
        else worker.postMessage(task);
      };
      worker.on('message', (answer: Answer) => {
        answers.push(answer);
        heard(answer);
        ask();
      });
      worker.on('error', reject);
      ask();
    });
  return Promise.all(Array.from({ length: availableParallelism() }, work));
}
