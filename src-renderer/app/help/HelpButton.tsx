import { useEffect, useState } from 'react';
import { t } from '../../i18n/text.ts';
import { usePlace } from '../../stores/place-store.ts';
import { Dialog } from '../Dialog.tsx';
import { startTour } from '../tour/tour-store.ts';
import { KeysPage } from './KeysPage.tsx';
import { NumbersPage } from './NumbersPage.tsx';
import { PlacePage } from './PlacePage.tsx';
import './help.css';

type Page = 'place' | 'numbers' | 'keys';

/** F1 asks for help wherever the keyboard is. */
function useHelpKey(open: () => void): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.key !== 'F1') return;
      event.preventDefault();
      open();
    };
    window.addEventListener('keydown', pressed);
    return () => window.removeEventListener('keydown', pressed);
  }, [open]);
}

/** The help of the place that is shown, what its numbers mean, and its keys. */
export function HelpButton() {
  const [page, setPage] = useState<Page | null>(null);
  useHelpKey(() => setPage((now) => now ?? 'place'));
  return (
    <>
      <button
        type="button"
        className="bar-button"
        data-testid="help"
        title={t('common.bar.helpKey')}
        onClick={() => setPage('place')}
      >
        <span className="bar-sign" aria-hidden="true">
          ?
        </span>
        <span>{t('common.bar.help')}</span>
      </button>
      {page !== null && (
        <Dialog title={t('common.help.title')} testid="help-dialog" onClose={() => setPage(null)}>
          <Pages page={page} show={setPage} />
          <div className="buttons help-tour">
            <button
              type="button"
              data-testid="help-tour"
              onClick={() => {
                setPage(null);
                startTour();
              }}
            >
              {t('common.help.tour')}
            </button>
          </div>
          <article className="help-page" data-testid={`help-${page}`}>
            {page === 'place' && <PlacePage />}
            {page === 'numbers' && <NumbersPage />}
            {page === 'keys' && <KeysPage />}
          </article>
        </Dialog>
      )}
    </>
  );
}

function Pages({ page, show }: { readonly page: Page; show(page: Page): void }) {
  const place = usePlace((state) => state.place);
  const pages: readonly (readonly [Page, string])[] = [
    ['place', t(`common.place.${place}`)],
    ['numbers', t('common.help.numbers')],
    ['keys', t('common.help.keys')],
  ];
  return (
    <nav className="buttons" aria-label={t('common.help.pages')}>
      {pages.map(([id, label]) => (
        <button
          key={id}
          type="button"
          aria-current={id === page ? 'page' : undefined}
          data-testid={`help-to-${id}`}
          onClick={() => show(id)}
        >
          {label}
        </button>
      ))}
    </nav>
  );
}
