import type { ReactNode } from 'react';
import type { ParameterTag } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { problemLine } from '../../ui/judged-words.ts';
import { type Path, pathText, valueIn } from './draft.ts';
import { useEditor } from './editor-context.ts';
import { type FieldText, fieldText } from './field-texts.ts';
import { limitsAt, limitsWords } from './limits.ts';
import { NumberInput } from './NumberInput.tsx';

const MARKS: Readonly<Record<ParameterTag, string>> = { measured: '●', derived: '◐', assumed: '○' };

/** How well a value is known, by mark and word. */
export function Tag({ tag }: { readonly tag: ParameterTag }) {
  return (
    <span className={`eyes-tag eyes-tag-${tag}`}>
      <span aria-hidden="true">{MARKS[tag]}</span> {t(`eyes.tag.${tag}`)}
    </span>
  );
}

export const fieldId = (path: Path): string => `field-${pathText(path)}`;

interface FrameProps {
  readonly path: Path;
  readonly text: FieldText;
  /** What stands in the row, and what the file format allows; usually the same. */
  readonly range: string;
  readonly allowed: string;
  /** Wide controls stand under their label. */
  readonly wide?: boolean;
  readonly children: ReactNode;
}

/** A field's row: name, control, unit, range and tag; its problems beneath. What is known of it is told on focus and hover. */
function FieldRow({ path, text, range, allowed, wide = false, children }: FrameProps) {
  const { problems, tell } = useEditor();
  const id = fieldId(path);
  const wrong = problems.get(pathText(path)) ?? [];
  const note = () => tell({ text, range: allowed });
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a pointer over the row only tells what focus tells too
    <div
      className={`eyes-field${wide ? ' eyes-field-wide' : ''}${wrong.length > 0 ? ' eyes-field-wrong' : ''}`}
      onFocus={note}
      onMouseEnter={note}
    >
      <label htmlFor={id}>{text.label}</label>
      <span className="eyes-control">{children}</span>
      <span className="eyes-unit">{text.unit}</span>
      <span className="eyes-range">{range}</span>
      {text.tag !== null && <Tag tag={text.tag} />}
      <span className="for-ears" id={`${id}-note`}>
        {allowed === '' ? '' : t('eyes.about.allowed', { range: allowed })}{' '}
        {text.tag === null ? '' : `${t(`eyes.tag.${text.tag}`)}.`} {text.source}
      </span>
      {wrong.map((problem) => (
        <span
          className="eyes-wrong"
          key={`${problem.found} ${problem.allowed}`}
          data-testid={`wrong-${pathText(path)}`}
        >
          {problemLine(problem)}
        </span>
      ))}
    </div>
  );
}

/** A number of the scenario. An optional one may be left empty. */
export function NumberField({
  path,
  text = fieldText(path),
  optional = false,
  placeholder,
  shownRange,
}: {
  readonly path: Path;
  readonly text?: FieldText;
  readonly optional?: boolean;
  readonly placeholder?: string;
  /** Stands in the row instead of what the format allows. */
  readonly shownRange?: string;
}) {
  const { draft, edit, settle, problems } = useEditor();
  const value = valueIn(draft, path);
  const allowed = limitsWords(limitsAt(path, String(valueIn(draft, ['start', 'kind']))), text.unit);
  const id = fieldId(path);
  return (
    <FieldRow path={path} text={text} range={shownRange ?? allowed} allowed={allowed}>
      <NumberInput
        id={id}
        testid={id}
        value={typeof value === 'number' || typeof value === 'string' ? value : undefined}
        step={text.step}
        placeholder={placeholder}
        invalid={problems.has(pathText(path))}
        describedBy={`${id}-note`}
        onValue={(next) => edit(path, optional && next === '' ? undefined : next)}
        onDone={settle}
      />
    </FieldRow>
  );
}

/** Words of the scenario. */
export function TextField({
  path,
  rows = 1,
  fixed = false,
}: {
  readonly path: Path;
  readonly rows?: number;
  readonly fixed?: boolean;
}) {
  const { draft, edit, settle, problems } = useEditor();
  const text = fieldText(path);
  const id = fieldId(path);
  const value = valueIn(draft, path);
  const common = {
    id,
    'data-testid': id,
    className: 'eyes-text',
    value: typeof value === 'string' ? value : '',
    readOnly: fixed,
    'aria-invalid': problems.has(pathText(path)) ? true : undefined,
    'aria-describedby': `${id}-note`,
    onChange: (event: { readonly target: { readonly value: string } }) => edit(path, event.target.value),
    onBlur: settle,
  };
  return (
    <FieldRow path={path} text={text} range="" allowed="" wide>
      {rows === 1 ? <input type="text" {...common} /> : <textarea rows={rows} {...common} />}
    </FieldRow>
  );
}

/** One of a few words. */
export function ChoiceField({
  path,
  options,
  text = fieldText(path),
  onPick,
}: {
  readonly path: Path;
  readonly options: readonly (readonly [string, string])[];
  readonly text?: FieldText;
  readonly onPick?: (value: string) => void;
}) {
  const { draft, edit, settle } = useEditor();
  const id = fieldId(path);
  const value = valueIn(draft, path);
  return (
    <FieldRow path={path} text={text} range="" allowed="" wide>
      <select
        id={id}
        data-testid={id}
        value={typeof value === 'string' ? value : ''}
        aria-describedby={`${id}-note`}
        onChange={(event) => {
          settle();
          if (onPick === undefined) edit(path, event.target.value);
          else onPick(event.target.value);
          settle();
        }}
      >
        {options.map(([key, label]) => (
          <option key={key} value={key}>
            {label}
          </option>
        ))}
      </select>
    </FieldRow>
  );
}

/** Yes or no. */
export function CheckField({ path }: { readonly path: Path }) {
  const { draft, edit, settle } = useEditor();
  const id = fieldId(path);
  return (
    <FieldRow path={path} text={fieldText(path)} range="" allowed="">
      <input
        id={id}
        data-testid={id}
        type="checkbox"
        checked={valueIn(draft, path) === true}
        aria-describedby={`${id}-note`}
        onChange={(event) => {
          settle();
          edit(path, event.target.checked);
          settle();
        }}
      />
    </FieldRow>
  );
}
