import { extname } from 'node:path';
import { bad, courseLimitsOf, ok, type Problem, type Result } from '../../physics/index.ts';
import type { Language } from '../../src-renderer/i18n/languages.ts';
import { writeTextAtomically } from '../files/atomic-write.ts';
import { keptData } from '../files/kept-data.ts';
import type { StoredAttempt } from '../ipc/contract.ts';
import { attemptReportHtml } from '../report/attempt-report.ts';
import { PAPERS, type Paper } from '../report/paper.ts';
import { personReportHtml } from '../report/person-report.ts';
import { firstDifference, leftOver, PRESENT_MODEL, playAgain } from '../report/play-again.ts';
import { findPrintBrowser, NO_PRINT_BROWSER, printToPdf } from '../report/print-browser.ts';
import type { Store } from '../store/store.ts';
import { phrase } from '../words/problem-words.ts';
import { spokenLanguage, t } from '../words/words.ts';
import { ANSWER_IS_NO, argumentProblem, type Command, type CommandCall, DONE, type OptionValues } from './command.ts';
import { asked, findAttempt, openGivenStore } from './find-attempt.ts';
import { together } from './number-option.ts';
import { outFile } from './out-file.ts';
import { progressBar } from './progress-bar.ts';

interface Out {
  readonly paper: Paper;
  readonly language: Language;
  /** Null writes HTML to standard output. */
  readonly file: string | null;
  readonly pdf: boolean;
}

function paperOption(options: OptionValues): Result<Paper> {
  const given = options.paper ?? 'a4';
  const paper = PAPERS.find((one) => one === String(given).toLowerCase());
  return paper === undefined ? bad([argumentProblem('--paper', `"${given}"`, PAPERS.join(', '))]) : ok(paper);
}

function outOf(options: OptionValues): Result<Out> {
  const parts = together({
    paper: paperOption(options),
    file: outFile(options, 'out'),
  });
  if (!parts.ok) return parts;
  const { paper, file } = parts.value;
  const language = spokenLanguage();
  const ending = file === null ? '.html' : extname(file).toLowerCase();
  if (ending === '.html' || ending === '.pdf') return ok({ paper, language, file, pdf: ending === '.pdf' });
  return bad([argumentProblem('--out', `"${options.out}"`, phrase('reportFile'))]);
}

/** What is asked for: one attempt, or one person in one scenario. */
type Subject =
  | { readonly kind: 'attempt'; readonly name: string }
  | { readonly kind: 'person'; readonly person: string; readonly scenario: string };

function subjectOf({ positionals: [name], options }: CommandCall): Result<Subject> {
  const { person, scenario } = options;
  const allowed = phrase('attemptOrPerson');
  const both = typeof person === 'string' && typeof scenario === 'string';
  if (name !== undefined && person === undefined && scenario === undefined) return ok({ kind: 'attempt', name });
  if (name === undefined && both) return ok({ kind: 'person', person, scenario });
  const found = phrase(name === undefined ? 'notBoth' : 'attemptAndPerson');
  return bad([argumentProblem('report', found, allowed)]);
}

interface Made {
  readonly html: string;
  /** What `--json` tells of it. */
  readonly facts: Readonly<Record<string, unknown>>;
  /** False where the report itself says that it cannot be relied on. */
  readonly sound: boolean;
}

/** Plays the attempt again, for its costliest moments and its proof; not one of another model, which must differ. */
async function played({ summary, scenario, commands, result }: StoredAttempt, call: CommandCall) {
  if (result === null || summary.modelVersion !== PRESENT_MODEL) return { moments: null, replay: 'not-tried' } as const;
  const again = await playAgain(
    { scenario, seed: summary.seed, commands, hand: result.hand },
    progressBar(call.output, t('terminal.progress.again')),
  );
  const difference = leftOver(commands.length, again.result) ?? firstDifference(result, again.result);
  return { moments: again.moments, replay: difference === null ? 'same' : 'different' } as const;
}

async function attemptReport(name: string, { paper, language }: Out, call: CommandCall): Promise<Result<Made>> {
  const found = await findAttempt(name, call.options);
  if (!found.ok) return found;
  const { attempt, store } = found.value;
  store?.close();
  const { moments, replay } = await played(attempt, call);
  const html = attemptReportHtml(attempt, { moments, replay, printedAt: new Date().toISOString(), paper, language });
  const { seal } = attempt.summary;
  const facts = { report: 'attempt', person: attempt.summary.personName, seal, replay, moments };
  return ok({ html, facts, sound: seal !== 'broken' && replay !== 'different' });
}

/** The person with an id or a name; names are told apart by their letters, not by their case. */
async function personId(store: Store, given: string): Promise<Result<string>> {
  const { listPeople } = await import('../store/people.ts');
  const people = await asked(given, () => store.use((database) => listPeople(database)));
  if (!people.ok) return people;
  const same = (name: string) => name.localeCompare(given, undefined, { sensitivity: 'accent' }) === 0;
  const found = people.value.filter(({ id, name }) => id === given || same(name));
  if (found.length === 1) return ok(found[0].id);
  const allowed =
    found.length === 0 ? people.value.map(({ name }) => name).join(', ') : found.map(({ id }) => id).join(', ');
  const text = `"${given}"`;
  const what = found.length === 0 ? phrase('nobody', { text }) : phrase('severalPeople', { text, limit: found.length });
  return bad([argumentProblem('--person', what, allowed === '' ? phrase('nobodyYet') : allowed)]);
}

async function personReport(
  subject: Extract<Subject, { kind: 'person' }>,
  { paper, language }: Out,
  { options }: CommandCall,
): Promise<Result<Made>> {
  const opened = await openGivenStore(options);
  if (!opened.ok) return opened;
  const store = opened.value;
  try {
    const id = await personId(store, subject.person);
    if (!id.ok) return id;
    const { personReportData } = await import('../report/person-data.ts');
    const data = await asked(subject.scenario, () =>
      store.use((database) => personReportData(database, id.value, subject.scenario)),
    );
    if (!data.ok) return data;
    const limits = courseLimitsOf(await keptData(store.folder).loadPreferences());
    const html = personReportHtml({ ...data.value, limits, printedAt: new Date().toISOString(), paper, language });
    const { personName, attempts, scenario } = data.value;
    const facts = { report: 'person', person: personName, scenario: scenario.id, attempts: attempts.length };
    return ok({ html, facts, sound: true });
  } finally {
    store.close();
  }
}

/** Writes where it was asked for; HTML to standard output when nowhere was. */
async function deliver(
  { html, facts, sound }: Made,
  out: Out,
  browser: string | null,
  call: CommandCall,
): Promise<number> {
  const { json, output } = call;
  if (out.file !== null && browser !== null) await printToPdf(browser, html, out.file);
  else if (out.file !== null) await writeTextAtomically(out.file, html);
  if (json)
    output.result(`${JSON.stringify({ ...facts, file: out.file, html: out.file === null ? html : null }, null, 2)}\n`);
  else output.result(out.file === null ? html : `${out.file}\n`);
  if (!sound) output.message(`${t('terminal.report.notSound')}\n`);
  return sound ? DONE : ANSWER_IS_NO;
}

/** Reports without a window: one attempt, or one person in one scenario. */
export const report: Command = {
  name: 'report',
  more: () => t('terminal.commands.report.more'),
  positionals: [0, 1],
  options: {
    person: { type: 'string' },
    scenario: { type: 'string' },
    out: { type: 'string' },
    paper: { type: 'string' },
    data: { type: 'string' },
  },
  run: async (call): Promise<number | readonly Problem[]> => {
    const parts = together({ subject: subjectOf(call), out: outOf(call.options) });
    if (!parts.ok) return parts.problems;
    const { subject, out } = parts.value;
    const browser = out.pdf ? findPrintBrowser() : null;
    if (out.pdf && browser === null) return [argumentProblem('--out', phrase('noBrowser'), NO_PRINT_BROWSER)];
    const made =
      subject.kind === 'attempt'
        ? await attemptReport(subject.name, out, call)
        : await personReport(subject, out, call);
    return made.ok ? deliver(made.value, out, browser, call) : made.problems;
  },
};
