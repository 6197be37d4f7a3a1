import { useState } from 'react';
import type { Scenario } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { usePlace } from '../../stores/place-store.ts';
import { type EyeDocument, isUnsaved, titleOf } from './documents.ts';
import { useDesk } from './eye-desk.ts';

function nameOf(document: EyeDocument): string {
  const title = titleOf(document);
  if (!isUnsaved(document)) return title;
  return t(document.saved === null ? 'eyes.bar.neverSaved' : 'eyes.bar.unsaved', { title });
}

/** Which scenario is shown, and what can be done with it as a whole. */
export function Toolbar({
  document,
  scenario,
}: {
  readonly document: EyeDocument;
  readonly scenario: Scenario | null;
}) {
  const desk = useDesk();
  const [asking, setAsking] = useState<string | null>(null);
  const own = desk.documents.filter(({ kind }) => kind === 'own');
  const shipped = desk.documents.filter(({ kind }) => kind === 'shipped');
  const unsaved = isUnsaved(document);
  const isOwn = document.kind === 'own';
  const toBench = async () => {
    const kept = unsaved ? await desk.save() : scenario;
    if (kept !== null) usePlace.getState().go('bench', `scenario:${kept.id}`);
  };
  return (
    <div className="eyes-bar">
      <label className="eyes-which">
        <span>{t('eyes.bar.which')}</span>
        <select data-testid="which" value={document.key} onChange={(event) => desk.choose(event.target.value)}>
          {own.length > 0 && (
            <optgroup label={t('eyes.bar.own')}>
              {own.map((one) => (
                <option key={one.key} value={one.key}>
                  {nameOf(one)}
                </option>
              ))}
            </optgroup>
          )}
          <optgroup label={t('eyes.bar.shipped')}>
            {shipped.map((one) => (
              <option key={one.key} value={one.key}>
                {nameOf(one)}
              </option>
            ))}
          </optgroup>
        </select>
      </label>
      <div className="eyes-buttons">
        <button
          type="button"
          className={unsaved ? 'first' : ''}
          data-testid="save"
          disabled={!unsaved || scenario === null}
          onClick={() => void desk.save()}
        >
          {t('eyes.bar.save')} <kbd>{t('eyes.bar.saveKey')}</kbd>
        </button>
        <button type="button" data-testid="undo" disabled={document.history.past.length === 0} onClick={desk.undo}>
          {t('eyes.bar.undo')} <kbd>{t('eyes.bar.undoKey')}</kbd>
        </button>
        <button type="button" data-testid="redo" disabled={document.history.future.length === 0} onClick={desk.redo}>
          {t('eyes.bar.redo')} <kbd>{t('eyes.bar.redoKey')}</kbd>
        </button>
        <button type="button" data-testid="duplicate" onClick={desk.duplicate}>
          {t('eyes.bar.duplicate')}
        </button>
        {unsaved && document.saved !== null && (
          <button type="button" data-testid="drop-changes" onClick={desk.dropChanges}>
            {t('eyes.bar.drop')}
          </button>
        )}
        {isOwn && (
          <button type="button" data-testid="delete" onClick={() => setAsking(document.key)}>
            {t('eyes.bar.delete')}
          </button>
        )}
        {window.rimwardHost !== undefined && (
          <>
            <button type="button" data-testid="open-scenario" onClick={() => void desk.openFile()}>
              {t('eyes.bar.open')}
            </button>
            <button type="button" data-testid="share" disabled={scenario === null} onClick={() => void desk.share()}>
              {t('eyes.bar.share')}
            </button>
          </>
        )}
        <button type="button" data-testid="to-bench" disabled={scenario === null} onClick={() => void toBench()}>
          {t(unsaved ? 'eyes.bar.saveToBench' : 'eyes.bar.toBench')}
        </button>
      </div>
      {asking === document.key && (
        <DeleteQuestion
          title={titleOf(document)}
          onAnswer={(yes) => {
            setAsking(null);
            if (yes) void desk.remove();
          }}
        />
      )}
      <p className="eyes-line" role="status" data-testid="desk-line">
        {desk.line()}
      </p>
      {desk.complaints.length > 0 && (
        <ul className="eyes-wrong eyes-complaints" role="alert" data-testid="complaints">
          {desk.complaints
            .map((line) => line())
            .map((line) => (
              <li key={line}>{line}</li>
            ))}
        </ul>
      )}
    </div>
  );
}

function DeleteQuestion({ title, onAnswer }: { readonly title: string; onAnswer(yes: boolean): void }) {
  return (
    <div className="eyes-question" role="alertdialog" aria-label={t('eyes.delete.title')}>
      <span>{t('eyes.delete.ask', { title })}</span>
      <button type="button" data-testid="delete-yes" onClick={() => onAnswer(true)}>
        {t('eyes.delete.yes')}
      </button>
      {/* biome-ignore lint/a11y/noAutofocus: the question has just been opened by the person, and this is the safe answer */}
      <button type="button" autoFocus onClick={() => onAnswer(false)}>
        {t('eyes.delete.no')}
      </button>
    </div>
  );
}
