/**
 * Shipped texts and sentences of the model in the person's language. In English the data's own text is the truth and is
 * shown as it is; elsewhere it is looked up by that text, so scenarios and boards that a person made or changed keep
 * their own words. To be called when something is drawn, never when a module loads.
 */
import { FLUID_IDS, fluidById, METRIC_LABELS } from '../../physics/index.ts';
import { LESSONS } from '../../scenarios/lessons.ts';
import { MESSAGES } from './languages.ts';
import { retold } from './retold.ts';
import { shippedText } from './shipped-texts.ts';
import { useLanguage } from './text.ts';

/** Any text of shipped data or of the model: a title, a label, a source, a Markdown text. Itself where nothing is known. */
export const textOf = (text: string): string => shippedText(text, useLanguage.getState().language);

export const scenarioTitle = ({ title }: { readonly title: string }): string => textOf(title);

export const scenarioBrief = ({ brief }: { readonly brief: string }): string => textOf(brief);

/** The lesson of a shipped scenario, Markdown; null where there is none. */
export const lessonText = (scenarioId: string): string | null =>
  Object.hasOwn(LESSONS, scenarioId) ? textOf(LESSONS[scenarioId]) : null;

export const handTitle = ({ title }: { readonly title: string }): string => textOf(title);

/** Name of a fluid; of one that is not known, its id. */
export const fluidName = (id: string): string => {
  const known = FLUID_IDS.find((one) => one === id);
  return known === undefined ? id : textOf(fluidById(known).label);
};

/** Name of a metric in lower case, as it stands inside a sentence; of one that is not known, its key. */
export const metricName = (key: string): string =>
  textOf(Object.entries(METRIC_LABELS).find(([known]) => known === key)?.[1].label ?? key);

/** What a person reads of a board; the rest of it is left alone. */
interface BoardWords {
  readonly title: string;
  readonly text: string;
  readonly toDo?: string;
  readonly toWatch?: string;
  readonly left: { readonly label: string };
  readonly right: { readonly label: string } | null;
  readonly question?: { readonly ask: string; readonly answers: readonly string[]; readonly reveal: string };
}

/** A board whose words are in the person's language, for showing; never to be edited or saved. */
export function boardText<B extends BoardWords>(board: B): B {
  const { title, text, toDo, toWatch, left, right, question } = board;
  return {
    ...board,
    title: textOf(title),
    text: textOf(text),
    ...(toDo === undefined ? {} : { toDo: textOf(toDo) }),
    ...(toWatch === undefined ? {} : { toWatch: textOf(toWatch) }),
    left: { ...left, label: textOf(left.label) },
    right: right === null ? null : { ...right, label: textOf(right.label) },
    ...(question === undefined
      ? {}
      : {
          question: {
            ...question,
            ask: textOf(question.ask),
            answers: question.answers.map(textOf),
            reveal: textOf(question.reveal),
          },
        }),
  };
}

function again(sentence: string, among: 'sentences' | 'lines' = 'sentences'): string {
  const { language } = useLanguage.getState();
  if (language === 'en') return sentence;
  const teller = { english: MESSAGES.en.content.said, told: MESSAGES[language].content.said, language };
  return retold(sentence, teller, among);
}

/** Why a graded item was kept or missed. */
export const gradeSentence = ({ reason }: { readonly reason: string }): string => again(reason);

/** What happened in a moment that cost much. */
export const momentSentence = ({ sentence }: { readonly sentence: string }): string => again(sentence);

export interface SaidLine {
  readonly text: string;
  /** "en" where the line could not be told in the person's language: to be set as `lang`. */
  readonly lang: 'en' | undefined;
}

/** What the program around the page says in a line or several: a notice, a refusal, what came of a file. */
export function programLine(line: string): SaidLine {
  const lines = line.split('\n');
  const told = lines.map((one) => again(one, 'lines'));
  const isEnglish = useLanguage.getState().language !== 'en' && told.some((one, at) => one === lines[at]);
  return { text: told.join('\n'), lang: isEnglish ? 'en' : undefined };
}

/** What went wrong, for the person, in the person's language where the line is known. */
export const faultText = (fault: unknown): string =>
  programLine(fault instanceof Error ? fault.message : String(fault)).text;
