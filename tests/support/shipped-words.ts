/** Every text that ships as data or that the model shows, in English: what the other languages must have. */
import {
  CUSUM_EXPLAINED,
  eyeAt,
  eyeParameters,
  FLUID_IDS,
  fluidById,
  METRIC_LABELS,
  SWEEP_MEASURES,
  TEACHING_CAUTION,
} from '../../physics/index.ts';
import file from '../../scenarios/boards/why-outward.rimward-boards.json' with { type: 'json' };
import { LESSONS } from '../../scenarios/lessons.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS, type ShippedFile } from '../../scenarios/shipped.ts';
import { builtInBoards } from '../../src-renderer/places/lecture/boards/built-in-boards.ts';

const said = (files: readonly ShippedFile[]): string[] =>
  files.flatMap(({ data }) => {
    const { title, brief } = data as { readonly title: string; readonly brief?: string };
    return brief === undefined ? [title] : [title, brief];
  });

function ofBoards(): string[] {
  return builtInBoards().boards.flatMap(({ title, text, toDo, toWatch, left, right, question, scenario, hand }) => [
    title,
    text,
    toDo ?? '',
    toWatch ?? '',
    left.label,
    right?.label ?? '',
    ...(question === undefined ? [] : [question.ask, ...question.answers, question.reveal]),
    ...(typeof scenario === 'string' ? [] : [scenario.title, scenario.brief]),
    ...(typeof hand === 'string' ? [] : [hand.title]),
  ]);
}

/** What the age function says of its values, at ages and presets that bring out every source. */
function ofParameters(): string[] {
  const ages = [0.5, 5, 30];
  const kinds = (['uniaxial', 'inflation'] as const).flatMap((stiffnessPreset) =>
    [true, false].map((dyed) => ({ stiffnessPreset, dyed, overrides: {} })),
  );
  return ages.flatMap((age) =>
    kinds.flatMap((kind) => eyeParameters(eyeAt(age, kind)).flatMap(({ label, source }) => [label, source])),
  );
}

/** Texts, some of many lines, some twice. */
export const shippedWords = (): readonly string[] =>
  [
    ...said(SHIPPED_SCENARIOS),
    ...said(SHIPPED_HANDS),
    ...Object.values(LESSONS),
    file.title,
    ...ofBoards(),
    ...ofParameters(),
    ...FLUID_IDS.map((id) => fluidById(id).label),
    ...Object.values(METRIC_LABELS).map(({ label }) => label),
    ...Object.values(SWEEP_MEASURES).flatMap(({ title, definition, published }) => [
      title,
      definition,
      ...published.map(({ source }) => source),
    ]),
    ...Object.values(CUSUM_EXPLAINED),
    TEACHING_CAUTION,
    // units that are words
    'degrees',
    "o'clock",
  ].filter((text) => text !== '');
