import { useView } from '../stores/view-store.ts';

/** The places of the window. Only those that work are shown. */
export function Bar() {
  const theme = useView((state) => state.theme);
  const setTheme = useView((state) => state.setTheme);
  const next = theme === 'room' ? 'projector' : 'room';
  return (
    <nav className="bar" aria-label="Places">
      <div className="brand" aria-hidden="true" title="Rimward">
        <svg viewBox="0 0 32 32" width="32" height="32" role="presentation">
          <circle cx="16" cy="16" r="13.5" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path
            d="M 9.5 18.5 A 7 7 0 1 1 22 20 Q 24 23 27.6 24"
            fill="none"
            stroke="currentColor"
            strokeWidth="2.4"
            strokeLinecap="round"
          />
        </svg>
      </div>
      <a className="place-link" href="#bench" aria-current="page" title="Bench (Ctrl 1)">
        <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true">
          <circle cx="12" cy="12" r="8.5" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path d="M12 12 L20 21 M12 12 L21 18" stroke="currentColor" strokeWidth="1.8" strokeLinecap="round" />
        </svg>
        <span>Bench</span>
      </a>
      <button
        type="button"
        className="theme-switch"
        data-testid="theme"
        onClick={() => setTheme(next)}
        title="Change the look"
      >
        <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true">
          <circle cx="12" cy="12" r="8" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path d="M12 4 A8 8 0 0 1 12 20 Z" fill="currentColor" />
        </svg>
        <span>{theme === 'room' ? 'Use projector' : 'Room lights'}</span>
      </button>
    </nav>
  );
}
