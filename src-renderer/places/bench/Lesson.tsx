import { useRef } from 'react';
import Markdown from 'react-markdown';
import { type Scenario, TEACHING_CAUTION } from '../../../physics/index.ts';
import { lessonText, scenarioTitle, textOf } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import './result.css';

/** Opens what a scenario teaches; nothing where it has no lesson. */
export function LessonButton({ scenario }: { readonly scenario: Scenario }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const text = lessonText(scenario.id);
  if (text === null) return null;
  return (
    <>
      <button type="button" data-testid="lesson" onClick={() => openAtTop(dialog.current)}>
        {t('bench.lesson.read')}
      </button>
      <dialog
        ref={dialog}
        className="lesson"
        tabIndex={-1}
        aria-label={t('bench.lesson.title', { title: scenarioTitle(scenario) })}
        data-testid="lesson-text"
      >
        <LessonText text={text} />
        {!text.includes(textOf(TEACHING_CAUTION)) && <p className="hint">{textOf(TEACHING_CAUTION)}</p>}
        <form method="dialog">
          <button type="submit" className="first">
            {t('bench.lesson.close')}
          </button>
        </form>
      </dialog>
    </>
  );
}

/** A dialog opens with its first button in view, which here stands at the end of a long text. */
function openAtTop(dialog: HTMLDialogElement | null): void {
  dialog?.showModal();
  dialog?.focus({ preventScroll: true });
  if (dialog !== null) dialog.scrollTop = 0;
}

/** Markdown without any HTML of its own and without links that lead out of the program. */
export function LessonText({ text }: { readonly text: string }) {
  return (
    <Markdown skipHtml disallowedElements={['a', 'img']} unwrapDisallowed>
      {text}
    </Markdown>
  );
}
