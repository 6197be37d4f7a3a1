import { useEffect, useState } from 'react';
import type { KeptOutside } from '../../../../src-main/ipc/contract.ts';
import { Ask } from '../Ask.tsx';
import { whenWords } from '../attempt-columns.ts';
import { faultWords, storeHost } from '../store-host.ts';
import { keepOutside } from './keep-outside.ts';
import type { Outside } from './use-outside.ts';

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
      <legend>Kept on this machine</legend>
      <KeepForm key={name} outside={outside} name={name} onKept={load} onFault={tell} />
      {kept.length === 0 && <p className="outside-hint">Nothing is kept.</p>}
      <ul className="outside-chosen">
        {kept.map((one) => (
          <li key={one.id} data-testid="kept-opening" data-photo={one.photoBytes !== null}>
            <span>
              {one.name}, {whenWords(one.keptAt)}
              {one.photoBytes !== null && `, with its photograph (${(one.photoBytes / 1e6).toFixed(1)} MB)`}
            </span>
            <span className="outside-buttons">
              <button type="button" onClick={() => void outside.openKept(one.id)} data-testid="kept-open">
                Open
              </button>
              <button type="button" onClick={() => setAsked(one)} data-testid="kept-remove">
                Remove
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
          question={`Remove ${asked.name} from this machine?`}
          yes="Remove it"
          onYes={() => void remove(asked)}
          onNo={() => setAsked(null)}
        >
          <p>{asked.photoBytes === null ? 'Its outline' : 'Its outline and its photograph'} cannot be brought back.</p>
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
            The photograph too
          </label>
          {withPhoto && (
            <p className="outside-hint">
              It then lies in the data folder, readable by whoever can read this folder, until you remove it here. No
              bundle and no backup takes it along. Your local rules on pictures of patients come first.
            </p>
          )}
        </>
      )}
      <div className="outside-buttons">
        <button
          type="button"
          onClick={() => void keepOutside(outside, good, name, withPhoto).then(onKept, onFault)}
          data-testid="keep-opening"
        >
          Keep this opening
        </button>
      </div>
    </>
  );
}
