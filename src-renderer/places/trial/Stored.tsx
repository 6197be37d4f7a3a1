import { Trans } from 'react-i18next';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';

/** Letters of a digest that are enough to tell two attempts apart by eye. */
const SHORT = 12;

/** Where the trial is kept and what proves it, as a line. */
export function Stored() {
  const keeping = useSession((state) => state.keeping);
  const digest = useSession((state) => state.result?.digest ?? '');
  if (window.rimwardHost === undefined) return <p className="hint">{t('trial.stored.notKept')}</p>;
  if (keeping.state === 'not-kept') {
    return (
      <p className="problems" role="alert" data-testid="stored">
        {t('trial.stored.notKeptYet', { why: keeping.why })}
      </p>
    );
  }
  if (keeping.state !== 'finished') {
    return (
      <p role="status" data-testid="stored">
        {t('trial.stored.storing')}
      </p>
    );
  }
  const { id, personName, seal } = keeping.summary;
  return (
    <p data-testid="stored" data-attempt={id}>
      <Trans
        i18nKey="trial.stored.line"
        values={{
          person: personName,
          id: id.slice(0, 8),
          seal: t(`trial.stored.${seal}`),
          digest: digest.slice(0, SHORT),
        }}
        components={{ b: <b />, code: <code /> }}
      />
    </p>
  );
}
