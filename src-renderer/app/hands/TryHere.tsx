import { t } from '../../i18n/text.ts';
import { number, quantity } from '../../ui/format.ts';
import { useTriedPointer } from './tried-pointer.ts';
import { type TriedPad, useTriedPad } from './use-tried-pad.ts';

const jawsWords = (closed: boolean): string => (closed ? t('hands.try.closed') : t('hands.try.open'));

/** What the devices say, as they say it. */
export function TryHere() {
  const { shown, listening } = useTriedPointer();
  const pad = useTriedPad();
  return (
    <fieldset className="hand-device hand-try">
      <legend>{t('hands.try.title')}</legend>
      <div className="hand-field" data-testid="hands-field" {...listening}>
        {shown === null ? (
          <p>{t('hands.try.field')}</p>
        ) : (
          <p data-testid="hands-tried" data-closed={shown.closed}>
            <b>
              {shown.device === 'touch'
                ? t('hands.try.touch', { count: shown.fingers })
                : t(`hands.try.${shown.device}`)}
            </b>
            <span>{jawsWords(shown.closed)}</span>
            {shown.device === 'pen' && (
              <>
                <Share label={t('hands.try.pressure')} value={shown.pressure} />
                <span>{t('hands.try.lean', { degrees: quantity(shown.lean_deg, 0, '°') })}</span>
              </>
            )}
          </p>
        )}
      </div>
      {pad === null ? <p className="hint">{t('hands.try.noPad')}</p> : <PadLines pad={pad} />}
    </fieldset>
  );
}

function PadLines({ pad }: { readonly pad: TriedPad }) {
  const stick = ([x, y]: readonly [number, number]) => `${number(x, 2)} / ${number(y, 2)}`;
  return (
    <p className="hand-pad" data-testid="hands-pad" data-closed={pad.closed}>
      <b title={pad.name}>{t('hands.try.pad')}</b>
      <span>{jawsWords(pad.closed)}</span>
      <Share label={t('hands.try.trigger')} value={pad.trigger} />
      <span>{t('hands.try.sticks', { left: stick(pad.left), right: stick(pad.right) })}</span>
    </p>
  );
}

/** A share as a bar and as a number. */
function Share({ label, value }: { readonly label: string; readonly value: number }) {
  return (
    <span className="hand-share">
      {label}
      <meter min={0} max={1} value={value} aria-label={label} />
      {quantity(100 * value, 0, '%')}
    </span>
  );
}
