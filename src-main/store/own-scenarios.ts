import { mkdir, readdir, readFile, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { writeTextAtomically } from '../files/atomic-write.ts';
import { Refusal } from '../ipc/answer.ts';
import type { RimwardHost } from '../ipc/contract.ts';

type OwnScenarios = Pick<
  RimwardHost,
  | 'listOwnScenarios'
  | 'saveOwnScenario'
  | 'removeOwnScenario'
  | 'loadEyeDrafts'
  | 'saveEyeDrafts'
  | 'loadBoards'
  | 'saveBoards'
>;

/** More scenarios than this are not kept; a list of them would help nobody. Assumed. */
export const MOST_SCENARIOS = 500;
/** A scenario file is a few kB; one much larger was not written here and is not read. */
const LARGEST_BYTES = 1_000_000;
/** The prefix keeps an id such as `con` from being a name that some systems reserve. */
export const SCENARIO_FILE = /^scenario-([a-z0-9-]{1,64})\.json$/;
export const DRAFTS = 'eye-drafts.json';
export const BOARDS = 'lecture-boards.json';

/** Where they are in the data folder. */
export const OWN_FOLDER = 'scenarios';

export const isMissing = (fault: unknown): boolean => (fault as NodeJS.ErrnoException).code === 'ENOENT';

/** Parsed text of a file; undefined when it is not there, too large or not JSON any more. */
async function readJson(path: string): Promise<unknown> {
  try {
    if ((await stat(path)).size > LARGEST_BYTES) return undefined;
    return JSON.parse(await readFile(path, 'utf8'));
  } catch (fault) {
    if (isMissing(fault) || fault instanceof SyntaxError) return undefined;
    throw fault;
  }
}

/** Names of the files of scenarios in a folder, sorted; none when there is no folder. */
export async function namesOfScenarios(folder: string): Promise<readonly string[]> {
  const all = await readdir(folder).catch((fault) => (isMissing(fault) ? [] : Promise.reject(fault)));
  return all.filter((name) => SCENARIO_FILE.test(name)).sort();
}

/**
 * Scenarios that were made here, one file each, the drafts of the editor and the Lecture's boards, in the data folder.
 * What is read back is not judged: the page checks it as it checks any file. A file that is no JSON is not listed.
 */
export function ownScenarios(dataFolder: string): OwnScenarios {
  const folder = join(dataFolder, OWN_FOLDER);
  const pathOf = (id: string): string => join(folder, `scenario-${id}.json`);
  // one after the other, so that the later of two saves is what stays
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = queue.then(work);
    queue = done.catch(() => undefined);
    return done;
  };

  const loadText = (name: string): Promise<string | null> =>
    inTurn(async () => {
      const text = await readFile(join(folder, name), 'utf8').catch((fault) =>
        isMissing(fault) ? null : Promise.reject(fault),
      );
      return text;
    });
  const saveText = (name: string, text: string): Promise<void> =>
    inTurn(async () => {
      if (text === '') return rm(join(folder, name), { force: true });
      await mkdir(folder, { recursive: true });
      await writeTextAtomically(join(folder, name), text);
    });

  return {
    listOwnScenarios: () =>
      inTurn(async () => {
        const read = await Promise.all((await namesOfScenarios(folder)).map((name) => readJson(join(folder, name))));
        return read.filter((data) => typeof data === 'object' && data !== null);
      }),
    saveOwnScenario: (scenario) =>
      inTurn(async () => {
        const there = await namesOfScenarios(folder);
        if (there.length >= MOST_SCENARIOS && !there.includes(`scenario-${scenario.id}.json`)) {
          throw new Refusal(`there are ${MOST_SCENARIOS} scenarios already; delete one first`);
        }
        await mkdir(folder, { recursive: true });
        await writeTextAtomically(pathOf(scenario.id), `${JSON.stringify(scenario, null, 2)}\n`);
      }),
    removeOwnScenario: (id) => inTurn(() => rm(pathOf(id), { force: true })),
    loadEyeDrafts: () => loadText(DRAFTS),
    saveEyeDrafts: (text) => saveText(DRAFTS, text),
    loadBoards: () => loadText(BOARDS),
    saveBoards: (text) => saveText(BOARDS, text),
  };
}
