import { t } from '../../i18n/text.ts';
import { numberGroups } from './number-groups.ts';

/** What every number on the screens is, and where it comes from. */
export function NumbersPage() {
  return (
    <>
      <h3>{t('common.help.numbers')}</h3>
      <p>{t('common.help.numbersIntro')}</p>
      <p className="hint">{t('common.caution')}</p>
      {numberGroups().map(([group, ids]) => (
        <section key={group}>
          <h4>{t(`common.help.${group}`)}</h4>
          <dl className="help-numbers">
            {ids.map((id) => (
              <div key={id} data-testid={`help-number-${id}`}>
                <dt>{t(`numbers.${id}.name`)}</dt>
                <dd>
                  {t(`numbers.${id}.definition`)}
                  <small>{t('common.explained.source', { source: t(`numbers.${id}.source`) })}</small>
                </dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </>
  );
}
