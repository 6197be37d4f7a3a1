import { FLUID_IDS, type FluidId, fluidById } from '../../../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../../../scenarios/shipped.ts';
import { useOwnEyes } from '../../../stores/own-eyes.ts';
import { LIVE_HAND } from './board.ts';
import type { SideDraft } from './board-draft.ts';
import { useEditing } from './editor-context.ts';
import { Choice, Field, Tick } from './editor-fields.tsx';

/** Stands for what is written out in the board itself. */
const WRITTEN_OUT = '(in this board)';

/** Which eyes a board runs and what moves the hand. */
export function EyesPart() {
  const { draft, change } = useEditing();
  return (
    <fieldset>
      <legend>Eyes and hand</legend>
      <ScenarioChoice />
      <Side side="left" title={draft.two ? 'Left eye' : 'The eye'} />
      <Tick
        label="Two eyes under one hand"
        checked={draft.two}
        testid="board-two"
        onChecked={(two) => change({ two })}
      />
      {draft.two && <Side side="right" title="Right eye" />}
      <HandChoice />
      <Field label="Seed of the tremor" path="seed" value={draft.seed} onValue={(seed) => change({ seed })} />
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
      label="Scenario"
      path="scenario"
      value={inline === null ? (scenario as string) : WRITTEN_OUT}
      onValue={(value) => value !== WRITTEN_OUT && change({ scenario: value })}
    >
      {inline !== null && <option value={WRITTEN_OUT}>{`${inline.title} ${WRITTEN_OUT}`}</option>}
      {SHIPPED_SCENARIOS.map(({ id, data }) => (
        <option key={id} value={id}>
          {(data as { readonly title: string }).title}
        </option>
      ))}
      {own
        .filter(({ id }) => !SHIPPED_SCENARIOS.some((one) => one.id === id))
        .map(({ id, title }) => (
          <option key={id} value={id}>
            {title}
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
      label="Hand"
      path="hand"
      value={inline === null ? (hand as string) : WRITTEN_OUT}
      onValue={(value) => value !== WRITTEN_OUT && change({ hand: value })}
    >
      <option value={LIVE_HAND}>The teacher’s own hand</option>
      {inline !== null && <option value={WRITTEN_OUT}>{`${inline.title} ${WRITTEN_OUT}`}</option>}
      {SHIPPED_HANDS.map(({ id, data }) => (
        <option key={id} value={id}>
          {(data as { readonly title: string }).title}
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
      <Field label="Stands over it" path={`${side}.label`} value={values.label} onValue={(label) => set({ label })} />
      <Field
        label="Age"
        unit="years"
        path={path('age_years')}
        value={values.age_years}
        onValue={(age_years) => set({ age_years })}
      />
      <Field
        label="Pressure behind"
        unit="mmHg"
        path={path('behindPressure_mmHg')}
        value={values.behindPressure_mmHg}
        onValue={(behindPressure_mmHg) => set({ behindPressure_mmHg })}
      />
      <Choice
        label="Fluid"
        path={path('fluid')}
        value={values.fluid}
        onValue={(fluid) => set({ fluid: fluid as FluidId | '' })}
      >
        <option value="">As in the scenario</option>
        {FLUID_IDS.map((id) => (
          <option key={id} value={id}>
            {fluidById(id).label}
          </option>
        ))}
      </Choice>
      <Choice
        label="Dye"
        path={path('dyed')}
        value={values.dyed}
        onValue={(dyed) => set({ dyed: dyed as SideDraft['dyed'] })}
      >
        <option value="">As in the scenario</option>
        <option value="yes">Dyed</option>
        <option value="no">Not dyed</option>
      </Choice>
      <span className="hint">What is left empty stays as in the scenario.</span>
    </fieldset>
  );
}
