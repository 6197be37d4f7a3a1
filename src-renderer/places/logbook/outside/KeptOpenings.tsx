import { useEffect, useState } from 'react';
import type { KeptOutside } from '../../../../src-main/ipc/contract.ts';
import { t } from '../../../i18n/text.ts';
import { number } from '../../../ui/format.ts';
import { Ask } from '../Ask.tsx';
import { whenWords } from '../attempt-columns.ts';
import { faultWords, storeHost } from '../store-host.ts';
import { keepOutside } from './keep-outside.ts';
import type { Outside } from './use-outside.ts';

function keptWords({ name, keptAt, photoBytes }: KeptOutside): string {
  const when = whenWords(keptAt);
  if (photoBytes === null) return t('logbook.outside.keptLine', { name, when });
  return t('logbook.outside.keptLinePhoto', { name, when, size: number(photoBytes / 1e6, 1) });
}

/** Openings that stay on this machine because somebody asked for it; a photograph only where that was asked for too. */
export function KeptOpenings({ outside, name }: { readonly outside: Outside; readonly name: string }) {
  const [kept, setKept] = useState<readonly KeptOutside[]>([]);
  const [line, setLine] = useState<string | null>(null);
  const [asked, setAsked] = useState<KeptOutside | null>(null);
  const tell = (fault: unknown) => setLine(faultWords(fault));
  const load = () => storeHost().listOutsideOpenings().then(setKept).catch(tell);
  useEffect(() => void load(), []);
  const remove = async ({ id }: KeptOutside) => {
    setAsked(null);
    await storeHost()
      .removeOutsideOpening(id)
      .then(() => setLine(null), tell);
    await load();
  };
  return (
    <fieldset className="outside-box" data-testid="kept-openings">
      <legend>{t('logbook.outside.kept')}</legend>
      <KeepForm key={name} outside={outside} name={name} onKept={load} onFault={tell} />
      {kept.length === 0 && <p className="outside-hint">{t('logbook.outside.nothingKept')}</p>}
      <ul className="outside-chosen">
        {kept.map((one) => (
          <li key={one.id} data-testid="kept-opening" data-photo={one.photoBytes !== null}>
            <span>{keptWords(one)}</span>
            <span className="outside-buttons">
              <button
                type="button"
                aria-label={t('logbook.outside.openWhich', { name: one.name })}
                onClick={() => void outside.openKept(one.id)}
                data-testid="kept-open"
              >
                {t('logbook.does.open')}
              </button>
              <button
                type="button"
                aria-label={t('logbook.outside.removeWhich', { name: one.name })}
                onClick={() => setAsked(one)}
                data-testid="kept-remove"
              >
                {t('logbook.does.remove')}
              </button>
            </span>
          </li>
        ))}
      </ul>
      {line !== null && (
        <p className="outside-problems" role="alert">
          {line}
        </p>
      )}
      {asked !== null && (
        <Ask
          question={t('logbook.outside.askRemove', { name: asked.name })}
          yes={t('logbook.does.removeIt')}
          onYes={() => void remove(asked)}
          onNo={() => setAsked(null)}
        >
          <p>{t(asked.photoBytes === null ? 'logbook.outside.outlineGone' : 'logbook.outside.bothGone')}</p>
        </Ask>
      )}
    </fieldset>
  );
}

function KeepForm({
  outside,
  name,
  onKept,
  onFault,
}: {
  readonly outside: Outside;
  readonly name: string;
  onKept(): void;
  onFault(fault: unknown): void;
}) {
  const [withPhoto, setWithPhoto] = useState(false);
  const good = outside.measured?.ok === true ? outside.measured.value : null;
  if (good === null) return null;
  return (
    <>
      {outside.source.kind === 'photo' && (
        <>
          <label className="outside-check">
            <input
              type="checkbox"
              checked={withPhoto}
              onChange={(event) => setWithPhoto(event.target.checked)}
              data-testid="keep-photo"
            />
            {t('logbook.outside.photoToo')}
          </label>
          {withPhoto && <p className="outside-hint">{t('logbook.outside.photoLies')}</p>}
        </>
      )}
      <div className="outside-buttons">
        <button
          type="button"
          onClick={() => void keepOutside(outside, good, name, withPhoto).then(onKept, onFault)}
          data-testid="keep-opening"
        >
          {t('logbook.outside.keep')}
        </button>
      </div>
    </>
  );
}
