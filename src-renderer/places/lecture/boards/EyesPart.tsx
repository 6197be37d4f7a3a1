import { FLUID_IDS, type FluidId } from '../../../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../../../scenarios/shipped.ts';
import { fluidName, handTitle, scenarioTitle } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { useOwnEyes } from '../../../stores/own-eyes.ts';
import { LIVE_HAND } from './board.ts';
import type { SideDraft } from './board-draft.ts';
import { useEditing } from './editor-context.ts';
import { Choice, Field, Tick } from './editor-fields.tsx';

/** Value of the choice that stands for what is written out in the board itself. */
const WRITTEN_OUT = '(in this board)';

/** Which eyes a board runs and what moves the hand. */
export function EyesPart() {
  const { draft, change } = useEditing();
  return (
    <fieldset>
      <legend>{t('lecture.editor.eyes')}</legend>
      <ScenarioChoice />
      <Side side="left" title={draft.two ? t('lecture.editor.leftEye') : t('lecture.editor.theEye')} />
      <Tick
        label={t('lecture.editor.two')}
        checked={draft.two}
        testid="board-two"
        onChecked={(two) => change({ two })}
      />
      {draft.two && <Side side="right" title={t('lecture.editor.rightEye')} />}
      <HandChoice />
      <Field label={t('lecture.editor.seed')} path="seed" value={draft.seed} onValue={(seed) => change({ seed })} />
    </fieldset>
  );
}

function ScenarioChoice() {
  const { draft, change } = useEditing();
  const own = useOwnEyes((state) => state.scenarios);
  const { scenario } = draft;
  const inline = typeof scenario === 'string' ? null : scenario;
  return (
    <Choice
      label={t('lecture.editor.scenario')}
      path="scenario"
      value={inline === null ? (scenario as string) : WRITTEN_OUT}
      onValue={(value) => value !== WRITTEN_OUT && change({ scenario: value })}
    >
      {inline !== null && (
        <option value={WRITTEN_OUT}>{t('lecture.editor.writtenOut', { title: scenarioTitle(inline) })}</option>
      )}
      {SHIPPED_SCENARIOS.map(({ id, data }) => (
        <option key={id} value={id}>
          {scenarioTitle(data as { readonly title: string })}
        </option>
      ))}
      {own
        .filter(({ id }) => !SHIPPED_SCENARIOS.some((one) => one.id === id))
        .map(({ id, title }) => (
          <option key={id} value={id}>
            {scenarioTitle({ title })}
          </option>
        ))}
    </Choice>
  );
}

function HandChoice() {
  const { draft, change } = useEditing();
  const { hand } = draft;
  const inline = typeof hand === 'string' ? null : hand;
  return (
    <Choice
      label={t('lecture.editor.hand')}
      path="hand"
      value={inline === null ? (hand as string) : WRITTEN_OUT}
      onValue={(value) => value !== WRITTEN_OUT && change({ hand: value })}
    >
      <option value={LIVE_HAND}>{t('lecture.editor.ownHand')}</option>
      {inline !== null && (
        <option value={WRITTEN_OUT}>{t('lecture.editor.writtenOut', { title: handTitle(inline) })}</option>
      )}
      {SHIPPED_HANDS.map(({ id, data }) => (
        <option key={id} value={id}>
          {handTitle(data as { readonly title: string })}
        </option>
      ))}
    </Choice>
  );
}

function Side({ side, title }: { readonly side: 'left' | 'right'; readonly title: string }) {
  const { draft, change } = useEditing();
  const values = draft[side];
  const set = (part: Partial<SideDraft>) => change({ [side]: { ...values, ...part } });
  const path = (name: string) => `${side}.change.${name}`;
  return (
    <fieldset className="board-side">
      <legend>{title}</legend>
      <Field
        label={t('lecture.editor.over')}
        path={`${side}.label`}
        value={values.label}
        onValue={(label) => set({ label })}
      />
      <Field
        label={t('lecture.editor.age')}
        unit={t('lecture.editor.years')}
        path={path('age_years')}
        value={values.age_years}
        onValue={(age_years) => set({ age_years })}
      />
      <Field
        label={t('lecture.editor.behind')}
        unit="mmHg"
        path={path('behindPressure_mmHg')}
        value={values.behindPressure_mmHg}
        onValue={(behindPressure_mmHg) => set({ behindPressure_mmHg })}
      />
      <Choice
        label={t('lecture.editor.fluid')}
        path={path('fluid')}
        value={values.fluid}
        onValue={(fluid) => set({ fluid: fluid as FluidId | '' })}
      >
        <option value="">{t('lecture.editor.asScenario')}</option>
        {FLUID_IDS.map((id) => (
          <option key={id} value={id}>
            {fluidName(id)}
          </option>
        ))}
      </Choice>
      <Choice
        label={t('lecture.editor.dye')}
        path={path('dyed')}
        value={values.dyed}
        onValue={(dyed) => set({ dyed: dyed as SideDraft['dyed'] })}
      >
        <option value="">{t('lecture.editor.asScenario')}</option>
        <option value="yes">{t('lecture.editor.dyed')}</option>
        <option value="no">{t('lecture.editor.notDyed')}</option>
      </Choice>
      <span className="hint">{t('lecture.editor.leftEmpty')}</span>
    </fieldset>
  );
}
