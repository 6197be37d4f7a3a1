import { type AttemptResult, TEACHING_CAUTION } from '../../physics/index.ts';
import type { StoredAttempt } from '../ipc/contract.ts';
import { type FirstDifference, firstDifference, leftOver, PRESENT_MODEL, playAgain } from '../report/play-again.ts';
import type { Store } from '../store/store.ts';
import { ANSWER_IS_NO, type Command, DONE } from './command.ts';
import { asked, findAttempt, finished } from './find-attempt.ts';
import { progressBar } from './progress-bar.ts';
import { table } from './table.ts';

const SEAL_WORDS = {
  fits: 'fits',
  broken: 'BROKEN: something was changed after the attempt was sealed',
  unsealed: 'none',
} as const;

const outcome = ({ ended, passed, steps, digest }: AttemptResult) => ({ ended, passed, steps, digest });

/** What the command answers: the same is only what is the same to the last bit. */
function answerOf({ summary }: StoredAttempt, stored: AttemptResult, replayed: AttemptResult, commands: number) {
  const difference: FirstDifference | null = leftOver(commands, replayed) ?? firstDifference(stored, replayed);
  return {
    same: difference === null,
    firstDifference: difference,
    seal: summary.seal,
    scenario: summary.scenarioId,
    person: summary.personName,
    seed: summary.seed,
    commands,
    stored: outcome(stored),
    replayed: outcome(replayed),
    storedModelVersion: summary.modelVersion,
    modelVersion: PRESENT_MODEL,
    caution: TEACHING_CAUTION,
  };
}

function answerTable(answer: ReturnType<typeof answerOf>): string {
  const { firstDifference: difference, stored, replayed } = answer;
  const rows = [
    ['played again', answer.same ? 'the same, to the last bit' : 'DIFFERENT'],
    ['seal', SEAL_WORDS[answer.seal]],
    ['scenario', answer.scenario],
    ['person', answer.person],
    ['commands', String(answer.commands)],
    ['stored', `${stored.ended}, digest ${stored.digest}, model ${answer.storedModelVersion}`],
    ['now', `${replayed.ended}, digest ${replayed.digest}, model ${answer.modelVersion}`],
  ];
  if (difference === null) return table(rows);
  const first = `${difference.path}: stored ${difference.stored}, played again ${difference.replayed}`;
  return table([...rows, ['first difference', first]]);
}

/** Writes into the store what playing it again gave, so that the logbook says so. */
async function note(store: Store, id: string, digest: string): Promise<void> {
  const { noteReplay } = await import('../store/attempts.ts');
  await asked(id, () => store.use((database) => noteReplay(database, id, digest)));
}

/** The proof of an attempt: its scenario, seed and commands, played again, must give its result. */
export const replay: Command = {
  name: 'replay',
  usage: '<attempt> [--data folder]',
  summary: 'plays a stored attempt again and compares; an attempt is a file, or its id in the logbook',
  positionals: [1, 1],
  options: { data: { type: 'string' } },
  run: async ({ positionals: [name], options, json, output }) => {
    const found = await findAttempt(name, options);
    if (!found.ok) return found.problems;
    const { attempt, store } = found.value;
    try {
      const whole = finished(name, attempt);
      if (!whole.ok) return whole.problems;
      const { scenario, commands, result, summary } = whole.value;
      const again = { scenario, seed: summary.seed, commands, hand: result.hand };
      const { result: replayed } = await playAgain(again, progressBar(output, 'the attempt'));
      const answer = answerOf(attempt, result, replayed, commands.length);
      if (store !== null) await note(store, summary.id, replayed.digest);
      output.result(json ? `${JSON.stringify(answer, null, 2)}\n` : answerTable(answer));
      if (!json) output.message(`${TEACHING_CAUTION}\n`);
      return answer.same && answer.seal !== 'broken' ? DONE : ANSWER_IS_NO;
    } finally {
      store?.close();
    }
  },
};
