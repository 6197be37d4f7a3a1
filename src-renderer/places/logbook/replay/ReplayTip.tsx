import type { ReactNode } from 'react';
import { Trans } from 'react-i18next';
import type { TipView, Vec2, WorldView } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { nearestTip } from '../../../tools/fold-path.ts';
import { Explained, type NumberId } from '../../../ui/Explained.tsx';
import { DASH, number, quantity } from '../../../ui/format.ts';
import { outwardTurn_deg, runsAtWords, sheetWords, turnWords } from '../../../ui/words.ts';

const Line = ({
  label,
  of,
  children,
}: {
  readonly label: string;
  readonly of: NumberId;
  readonly children: ReactNode;
}) => (
  <div className="log-line">
    <dt>
      <Explained of={of}>{label}</Explained>
    </dt>
    <dd>{children}</dd>
  </div>
);

/** The numbers at the tip nearest to the instrument, at the moment shown. */
export function ReplayTip({ view, centre_mm }: { readonly view: WorldView | null; readonly centre_mm: Vec2 }) {
  const at = view?.instrument.tip_mm ?? [0, 0, 0];
  const tip = view === null ? null : nearestTip<TipView>([at[0], at[1]], view.tips);
  const resistance = tip !== null && tip.drivingRatio > 0 ? tip.drivingForce_mN / tip.drivingRatio : null;
  const goes = (tip?.drivingRatio ?? 0) > 1;
  return (
    <dl className="log-lines" aria-label={t('logbook.tip.label')}>
      <Line of="drivingRatio" label={t('logbook.tip.ratio')}>
        <span data-testid="replay-ratio">{number(tip?.drivingRatio, 2)}</span>
        <small> {t(goes ? 'logbook.tip.goes' : 'logbook.tip.rests')}</small>
      </Line>
      <Line of="drivingForce" label={t('logbook.tip.driving')}>
        <Trans
          i18nKey="logbook.tip.drivingOf"
          values={{ driving: quantity(tip?.drivingForce_mN, 2, 'mN'), resistance: quantity(resistance, 2, 'mN') }}
          components={{ small: <small /> }}
        />
      </Line>
      <Line of="heading" label={t('logbook.tip.heading')}>
        {tip === null ? DASH : turnWords(outwardTurn_deg(tip, tip.heading_deg, centre_mm))}
      </Line>
      <Line of="sheetAlone" label={t('logbook.tip.sheetAlone')}>
        {tip === null ? DASH : sheetWords(tip, centre_mm)}
      </Line>
      <Line of="shear" label={t('logbook.tip.shear')}>
        {quantity(tip?.shear_mN, 1, 'mN')}
      </Line>
      <Line of="stretch" label={t('logbook.tip.stretch')}>
        {quantity(tip?.stretch_mN, 1, 'mN')}
      </Line>
      <Line of="modeShares" label={t('logbook.tip.modes')}>
        {modeWords(tip)}
      </Line>
      <Line of="gripForce" label={t('logbook.tip.force')}>
        {quantity(view?.instrument.gripForce_mN, 1, 'mN')}
      </Line>
      <Line of="sideLoad" label={t('logbook.tip.sideLoad')}>
        {quantity(view?.instrument.sideLoad_mN, 1, 'mN')}
      </Line>
      <Line of="netPressure" label={t('logbook.tip.netPressure')}>
        {quantity(view?.chamber.netPressure_mmHg, 1, 'mmHg')}
      </Line>
      <Line of="runsByItselfAt" label={t('logbook.tip.runsAt')}>
        {view === null ? DASH : runsAtWords(view.chamber)}
      </Line>
      <Line of="torn" label={t('logbook.tip.torn')}>
        {quantity(view?.torn_mm, 1, 'mm')}
      </Line>
      <Line of="grasps" label={t('logbook.tip.grasps')}>
        {number(view?.grasps, 0)}
      </Line>
    </dl>
  );
}

function modeWords(tip: TipView | null): string {
  if (tip === null || !tip.modeShares.some((share) => share > 0)) return DASH;
  return `${tip.modeShares.map((share) => number(100 * share, 0)).join(' / ')} %`;
}
