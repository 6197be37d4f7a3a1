import { t } from '../../../i18n/text.ts';
import { AIDS, aidLabel } from '../twin/AidToggles.tsx';
import { useEditing } from './editor-context.ts';
import { Choice, Field, Tick } from './editor-fields.tsx';

/** What a board asks the room, and when. */
export function QuestionPart() {
  const { draft, change } = useEditing();
  return (
    <fieldset>
      <legend>{t('lecture.editor.question')}</legend>
      <Tick
        label={t('lecture.editor.asks')}
        checked={draft.asks}
        testid="board-asks"
        onChecked={(asks) => change({ asks })}
      />
      {draft.asks && (
        <>
          <Field
            label={t('lecture.editor.ask')}
            path="question.ask"
            value={draft.ask}
            onValue={(ask) => change({ ask })}
          />
          <Field
            label={t('lecture.editor.answers')}
            hint={t('lecture.editor.answersHint')}
            path="question.answers"
            rows={3}
            value={draft.answers}
            onValue={(answers) => change({ answers })}
          />
          <Field
            label={t('lecture.editor.reveal')}
            path="question.reveal"
            rows={3}
            value={draft.reveal}
            onValue={(reveal) => change({ reveal })}
          />
          <Choice
            label={t('lecture.editor.when')}
            path="question.holdAt"
            value={draft.holdAt}
            onValue={(holdAt) => change({ holdAt: holdAt === 'torn' ? 'torn' : 'start' })}
          >
            <option value="start">{t('lecture.editor.whenStart')}</option>
            <option value="torn">{t('lecture.editor.whenTorn')}</option>
          </Choice>
          {draft.holdAt === 'torn' && (
            <Field
              label={t('lecture.editor.arcTorn')}
              unit={t('lecture.editor.degrees')}
              path="question.holdAt.torn_deg"
              value={draft.torn_deg}
              onValue={(torn_deg) => change({ torn_deg })}
            />
          )}
          <RevealedAids />
        </>
      )}
    </fieldset>
  );
}

function RevealedAids() {
  const { draft, change } = useEditing();
  const { revealAids } = draft;
  return (
    <fieldset className="board-side">
      <legend>{t('lecture.editor.revealed')}</legend>
      {AIDS.map(({ aid }) => (
        <Tick
          key={aid}
          label={aidLabel(aid)}
          checked={revealAids.includes(aid)}
          testid={`board-reveal-${aid}`}
          onChecked={(on) =>
            change({ revealAids: on ? [...revealAids, aid] : revealAids.filter((one) => one !== aid) })
          }
        />
      ))}
    </fieldset>
  );
}
