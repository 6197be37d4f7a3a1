import { t } from '../../i18n/text.ts';
import { usePlace } from '../../stores/place-store.ts';
import { PlainMarkdown } from '../../ui/PlainMarkdown.tsx';

/** What the place that is shown is for, and how its main thing is done. */
export function PlacePage() {
  const place = usePlace((state) => state.place);
  return (
    <>
      <h3>{t(`${place}.help.title`)}</h3>
      <PlainMarkdown text={t(`${place}.help.text`)} />
      <p className="hint">{t('common.caution')}</p>
    </>
  );
}
