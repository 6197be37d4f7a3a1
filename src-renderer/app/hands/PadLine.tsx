import { useEffect } from 'react';
import { t } from '../../i18n/text.ts';
import { usePadNews } from '../../stores/hands-store.ts';
import './hands.css';

/** How long good news stays, ms; that a gamepad is gone stays until it is closed or one is plugged in. */
const GOOD_NEWS_ms = 5000;

/** Says that a gamepad came or went. */
export function PadLine() {
  const news = usePadNews((state) => state.news);
  useEffect(() => {
    if (news !== 'plugged') return;
    const timer = window.setTimeout(() => usePadNews.setState({ news: null }), GOOD_NEWS_ms);
    return () => window.clearTimeout(timer);
  }, [news]);
  return (
    <div role="status" className="pad-news" data-testid="pad-news" data-news={news ?? ''}>
      {news !== null && (
        <p>
          <span>{t(`hands.pad.${news}`)}</span>
          <button type="button" onClick={() => usePadNews.setState({ news: null })}>
            {t('common.close')}
          </button>
        </p>
      )}
    </div>
  );
}
