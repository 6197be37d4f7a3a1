import type { TipView, WorldView } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { nearestTip } from '../../tools/fold-path.ts';
import { Explained } from '../../ui/Explained.tsx';
import { DASH, number, quantity } from '../../ui/format.ts';
import { outwardTurn_deg, runsAtWords, sheetWords, turnWords } from '../../ui/words.ts';
import { Aids } from './Aids.tsx';
import { Card, Line } from './Card.tsx';
import { HowToTear } from './HowToTear.tsx';

/** What the pull does to the tip just now. */
export function TipCard() {
  const view = useSession((state) => state.view);
  const shown = useSession((state) => state.scenario?.aids.tipCard) ?? true;
  return (
    <Card name="tip" title={t('bench.tip.title')}>
      {shown ? <TipLines view={view} /> : <p>{t('bench.tip.without')}</p>}
      <Aids />
      <HowToTear />
    </Card>
  );
}

function TipLines({ view }: { readonly view: WorldView | null }) {
  const centre = useSession((state) => state.geometry?.target.centre_mm) ?? [0, 0];
  const at = view?.instrument.tip_mm ?? [0, 0, 0];
  const tip = view === null ? null : nearestTip<TipView>([at[0], at[1]], view.tips);
  const resistance = tip !== null && tip.drivingRatio > 0 ? tip.drivingForce_mN / tip.drivingRatio : null;
  const load = view?.instrument;
  return (
    <>
      <DrivingBar ratio={tip?.drivingRatio ?? null} />
      <dl className="lines">
        <Line label={t('bench.tip.drivingForce')} of="drivingForce" testid="driving-force">
          {quantity(tip?.drivingForce_mN, 2, 'mN')}
          <small>{t('bench.tip.ofResistance', { resistance: quantity(resistance, 2, 'mN') })}</small>
        </Line>
        <Line label={t('bench.tip.heading')} of="heading" testid="heading">
          {tip === null ? '–' : turnWords(outwardTurn_deg(tip, tip.heading_deg, centre))}
        </Line>
        <Line label={t('bench.tip.sheetAlone')} of="sheetAlone" testid="sheet-alone">
          {tip === null ? '–' : sheetWords(tip, centre)}
        </Line>
        <Line label={t('bench.tip.shear')} of="shear" testid="shear">
          {quantity(tip?.shear_mN, 1, 'mN')}
        </Line>
        <Line label={t('bench.tip.stretch')} of="stretch" testid="stretch">
          {quantity(tip?.stretch_mN, 1, 'mN')}
        </Line>
        <Line label={t('bench.tip.modes')} of="modeShares" testid="modes">
          {shares(tip)}
        </Line>
        <Line label={t('bench.tip.gripForce')} of="gripForce" testid="grip-force">
          {quantity(load?.gripForce_mN, 1, 'mN')}
        </Line>
        <Line label={t('bench.tip.sideLoad')} of="sideLoad" testid="side-load">
          {quantity(load?.sideLoad_mN, 1, 'mN')}
        </Line>
        <Line label={t('bench.tip.netPressure')} of="netPressure" testid="net-pressure">
          {quantity(view?.chamber.netPressure_mmHg, 1, 'mmHg')}
        </Line>
        <Line label={t('bench.tip.runsAt')} of="runsByItselfAt" testid="runs-at">
          {view === null ? '–' : runsAtWords(view.chamber)}
        </Line>
      </dl>
      {load?.reachLimited === true && <p className="hint">{t('bench.tip.reachLimited')}</p>}
    </>
  );
}

/** Shares of the three modes as one group of percentages; a dash while the tip is closed. */
function shares(tip: TipView | null): string {
  if (tip === null || !tip.modeShares.some((share) => share > 0)) return DASH;
  return `${tip.modeShares.map((share) => number(100 * share, 0)).join(' / ')} %`;
}

/** Driving force over tear resistance, with the line from which the tear goes. */
function DrivingBar({ ratio }: { readonly ratio: number | null }) {
  const finite = ratio !== null && Number.isFinite(ratio) ? ratio : 0;
  const goes = finite > 1;
  const text = number(ratio, 2);
  return (
    <div className="driving">
      <div className="driving-words">
        <Explained of="drivingRatio">{t('bench.tip.ratio')}</Explained>
        <b data-testid="driving-ratio">{text}</b>
      </div>
      {/* biome-ignore lint/a11y/useSemanticElements: a meter element cannot carry the line at 1 */}
      <div
        className="driving-bar"
        role="meter"
        aria-label={t('bench.tip.ratioMeter')}
        aria-valuemin={0}
        aria-valuemax={2}
        aria-valuenow={Math.min(2, finite)}
      >
        <div
          className={goes ? 'driving-fill goes' : 'driving-fill'}
          style={{ width: `${Math.min(100, 50 * finite)}%` }}
        />
        <div className="driving-line" />
      </div>
      <div className="driving-ends" aria-hidden="true">
        <span>0</span>
        <span>{goes ? t('bench.tip.goes') : t('bench.tip.goesFromHere')}</span>
        <span>2</span>
      </div>
    </div>
  );
}
