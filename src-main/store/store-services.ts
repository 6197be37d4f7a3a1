import type { StoreHost } from '../ipc/contract.ts';
import { listAttempts, openingShapes, unfinishedAttempts } from './attempt-list.ts';
import { appendCommands, beginAttempt, finishAttempt, loadAttempt, noteReplay, removeAttempt } from './attempts.ts';
import { listClasses, listPeople, removeClass, removePerson, saveClass, savePerson } from './people.ts';
import type { Database } from './sqlite.ts';
import type { Store } from './store.ts';

type Kept =
  | 'listPeople'
  | 'savePerson'
  | 'removePerson'
  | 'beginAttempt'
  | 'appendCommands'
  | 'finishAttempt'
  | 'removeAttempt'
  | 'unfinishedAttempts'
  | 'listAttempts'
  | 'loadAttempt'
  | 'noteReplay'
  | 'openingShapes'
  | 'listClasses'
  | 'saveClass'
  | 'removeClass';

/** What the store answers by itself, without a dialog, a file or a long wait; the same in both shells. */
export function storeServices(store: Store): Pick<StoreHost, Kept> {
  const call =
    <Args extends unknown[], T>(work: (database: Database, ...args: Args) => T) =>
    async (...args: Args): Promise<T> =>
      store.use((database) => work(database, ...args));
  return {
    listPeople: call(listPeople),
    savePerson: call(savePerson),
    removePerson: call(removePerson),
    beginAttempt: call(beginAttempt),
    appendCommands: call(appendCommands),
    finishAttempt: call(finishAttempt),
    removeAttempt: call(removeAttempt),
    unfinishedAttempts: call(unfinishedAttempts),
    listAttempts: call(listAttempts),
    loadAttempt: call(loadAttempt),
    noteReplay: call(noteReplay),
    openingShapes: call(openingShapes),
    listClasses: call(listClasses),
    saveClass: call(saveClass),
    removeClass: call(removeClass),
  };
}
