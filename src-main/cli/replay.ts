import { type AttemptResult, TEACHING_CAUTION } from '../../physics/index.ts';
import type { StoredAttempt } from '../ipc/contract.ts';
import { type FirstDifference, firstDifference, leftOver, PRESENT_MODEL, playAgain } from '../report/play-again.ts';
import type { Store } from '../store/store.ts';
import { playerOf, t, textOf } from '../words/words.ts';
import { ANSWER_IS_NO, type Command, DONE } from './command.ts';
import { asked, findAttempt, finished } from './find-attempt.ts';
import { progressBar } from './progress-bar.ts';
import { table } from './table.ts';

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

const outcomeWords = ({ ended, digest }: ReturnType<typeof outcome>, model: string): string =>
  t('terminal.replay.outcome', { ended: t(`terminal.ended.${ended}`), digest, model });

function answerTable(answer: ReturnType<typeof answerOf>, player: string): string {
  const { firstDifference: difference, stored, replayed } = answer;
  const rows = [
    [t('terminal.replay.again'), t(answer.same ? 'terminal.replay.same' : 'terminal.replay.different')],
    [t('terminal.replay.seal.name'), t(`terminal.replay.seal.${answer.seal}`)],
    [t('terminal.replay.scenario'), answer.scenario],
    [t('terminal.replay.person'), player],
    [t('terminal.replay.commands'), String(answer.commands)],
    [t('terminal.replay.stored'), outcomeWords(stored, answer.storedModelVersion)],
    [t('terminal.replay.now'), outcomeWords(replayed, answer.modelVersion)],
  ];
  if (difference === null) return table(rows);
  return table([...rows, [t('terminal.replay.first'), t('terminal.replay.difference', { ...difference })]]);
}

/** Writes into the store what playing it again gave, so that the logbook says so. */
async function note(store: Store, id: string, digest: string): Promise<void> {
  const { noteReplay } = await import('../store/attempts.ts');
  await asked(id, () => store.use((database) => noteReplay(database, id, digest)));
}

/** The proof of an attempt: its scenario, seed and commands, played again, must give its result. */
export const replay: Command = {
  name: 'replay',
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
      const { result: replayed } = await playAgain(again, progressBar(output, t('terminal.progress.attempt')));
      const answer = answerOf(attempt, result, replayed, commands.length);
      if (store !== null) await note(store, summary.id, replayed.digest);
      output.result(json ? `${JSON.stringify(answer, null, 2)}\n` : answerTable(answer, playerOf(summary)));
      if (!json) output.message(`${textOf(TEACHING_CAUTION)}\n`);
      return answer.same && answer.seal !== 'broken' ? DONE : ANSWER_IS_NO;
    } finally {
      store?.close();
    }
  },
};
