import { useState } from 'react';
import { t } from '../../i18n/text.ts';
import { Dialog } from '../Dialog.tsx';
import { HandsPanel } from '../hands/HandsPanel.tsx';
import { LanguageChoice, LookChoice, MotionChoice, TextSizeChoice } from './choices.tsx';
import './settings.css';

/** How this person wants to see and hear the program. */
export function SettingsButton() {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" className="bar-button" data-testid="settings" onClick={() => setOpen(true)}>
        <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true">
          <g fill="none" stroke="currentColor" strokeWidth="1.7" strokeLinecap="round">
            <path d="M4 7 H12 M18 7 H20 M4 12 H6 M12 12 H20 M4 17 H14 M20 17 H20" />
            <circle cx="15" cy="7" r="2.2" />
            <circle cx="9" cy="12" r="2.2" />
            <circle cx="17" cy="17" r="2.2" />
          </g>
        </svg>
        <span>{t('common.bar.settings')}</span>
      </button>
      {open && (
        <Dialog title={t('common.settings.title')} testid="settings-dialog" onClose={() => setOpen(false)}>
          <LanguageChoice />
          <LookChoice />
          <TextSizeChoice />
          <MotionChoice />
          <HandsPanel />
          {window.rimwardHost !== undefined && <p className="hint">{t('common.settings.kept')}</p>}
        </Dialog>
      )}
    </>
  );
}
