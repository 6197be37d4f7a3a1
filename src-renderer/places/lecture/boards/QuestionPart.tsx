import { AIDS } from '../twin/AidToggles.tsx';
import { useEditing } from './editor-context.ts';
import { Choice, Field, Tick } from './editor-fields.tsx';

/** What a board asks the room, and when. */
export function QuestionPart() {
  const { draft, change } = useEditing();
  return (
    <fieldset>
      <legend>Question to the room</legend>
      <Tick
        label="Ask the room, and hold the tear until it is revealed"
        checked={draft.asks}
        testid="board-asks"
        onChecked={(asks) => change({ asks })}
      />
      {draft.asks && (
        <>
          <Field label="Question" path="question.ask" value={draft.ask} onValue={(ask) => change({ ask })} />
          <Field
            label="Answers"
            hint="One a line, two to six"
            path="question.answers"
            rows={3}
            value={draft.answers}
            onValue={(answers) => change({ answers })}
          />
          <Field
            label="Shown when revealed"
            path="question.reveal"
            rows={3}
            value={draft.reveal}
            onValue={(reveal) => change({ reveal })}
          />
          <Choice
            label="Ask"
            path="question.holdAt"
            value={draft.holdAt}
            onValue={(holdAt) => change({ holdAt: holdAt === 'torn' ? 'torn' : 'start' })}
          >
            <option value="start">Before anything moves</option>
            <option value="torn">When so much is torn</option>
          </Choice>
          {draft.holdAt === 'torn' && (
            <Field
              label="Arc torn"
              unit="degrees"
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
      <legend>Comes on when revealed</legend>
      {AIDS.map(({ aid, label }) => (
        <Tick
          key={aid}
          label={label}
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
