import { MODEL_VERSION } from '../../../physics/index.ts';
import { faultText } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { useOwnEyes } from '../../stores/own-eyes.ts';
import { usePlace } from '../../stores/place-store.ts';
import { clockTime } from '../../ui/format.ts';
import { AttemptSession } from './attempt-session.ts';
import { offerFile, scenarioById, useScenarios } from './scenario-store.ts';

const STEPS_PER_s = 60;

let session: AttemptSession | null = null;

/** The bench's one session: it outlives a visit to another place. */
export function benchSession(): AttemptSession {
  session ??= new AttemptSession('bench');
  return session;
}

const complain = (line: string): void => useScenarios.setState({ problems: [line] });

/** "Try from here": plays an attempt of the logbook up to a step; the hand goes on from there in an attempt of its own. */
async function goOnFrom(bench: AttemptSession, id: string, step: number): Promise<boolean> {
  const host = window.rimwardHost;
  if (host === undefined) return false;
  const { scenario, commands, summary } = await host.loadAttempt(id);
  // a step short of the end, or there would be nothing to go on with
  const most = summary.ended === null ? commands.length : commands.length - 1;
  const until = Math.max(0, Math.min(most, Math.round(step)));
  const [name, time, then] = [summary.personName, clockTime(until / STEPS_PER_s), summary.modelVersion];
  const from = () =>
    then === MODEL_VERSION
      ? t('bench.from.attempt', { name, time })
      : t('bench.from.otherModel', { name, time, then, now: MODEL_VERSION });
  bench.choose(scenario, { seed: summary.seed, commands: commands.slice(0, until) }, from);
  return true;
}

async function doErrand(bench: AttemptSession, errand: string): Promise<boolean> {
  const [kind, rest] = [errand.slice(0, errand.indexOf(':')), errand.slice(errand.indexOf(':') + 1)];
  if (kind === 'from') {
    const [id = '', step = '0'] = rest.split(':');
    return goOnFrom(bench, id, Number(step));
  }
  if (kind === 'scenario' && !useOwnEyes.getState().loaded) await useOwnEyes.getState().load();
  const scenario = kind === 'scenario' ? scenarioById(rest) : kind === 'file' ? offerFile(rest, 'Eyes') : null;
  if (scenario === null) {
    if (kind === 'scenario') complain(t('bench.chooser.noScenario', { name: rest }));
    return false;
  }
  bench.choose(scenario);
  return true;
}

/**
 * Does what another place asked of the bench. Without an errand the bench shows what it showed, at first the first scenario.
 */
export async function takeUpBench(bench: AttemptSession): Promise<void> {
  const errand = usePlace.getState().takeErrand();
  const did =
    errand !== null &&
    (await doErrand(bench, errand).catch((fault: unknown) => {
      complain(faultText(fault));
      return false;
    }));
  const [first] = useScenarios.getState().shipped;
  if (!did && bench.store.getState().attempt === 0 && first !== undefined) bench.choose(first);
}
