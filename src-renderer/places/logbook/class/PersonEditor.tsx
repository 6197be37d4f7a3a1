import { type FormEvent, useState } from 'react';
import { PERSON_COLOURS, type Person, type PersonColour } from '../../../../src-main/ipc/contract.ts';
import { t } from '../../../i18n/text.ts';
import { loadPeople } from '../../../stores/people-store.ts';
import { PersonMark } from '../../../ui/PersonMark.tsx';
import { loadLogbook } from '../logbook-store.ts';
import { tryOrSay } from '../save-text.ts';
import { storeHost } from '../store-host.ts';

async function changed(work: () => Promise<void>): Promise<boolean> {
  if ((await tryOrSay(() => work().then(() => true))) === null) return false;
  await Promise.all([loadPeople(), loadLogbook()]);
  return true;
}

/** One person to rename, colour or remove; with null, a new one to add. */
export function PersonEditor({ person, attempts }: { readonly person: Person | null; readonly attempts: number }) {
  const [name, setName] = useState(person?.name ?? '');
  const [colour, setColour] = useState<PersonColour>(person?.colour ?? 'teal');
  const same = person !== null && name.trim() === person.name && colour === person.colour;
  const save = async (event: FormEvent) => {
    event.preventDefault();
    const id = person?.id ?? crypto.randomUUID();
    const done = await changed(() => storeHost().savePerson({ id, name: name.trim(), colour }));
    if (done && person === null) setName('');
  };
  const form = (
    <form
      className="log-form"
      onSubmit={(event) => void save(event)}
      data-testid={person === null ? 'add-person-form' : 'person-form'}
    >
      <PersonMark name={name.trim() === '' ? '?' : name} colour={colour} />
      <input
        value={name}
        maxLength={80}
        autoComplete="off"
        aria-label={person === null ? t('logbook.people.nameNew') : t('logbook.people.nameOf', { name: person.name })}
        placeholder={person === null ? t('logbook.people.newName') : undefined}
        onChange={(event) => setName(event.target.value)}
        data-testid={person === null ? 'new-person-name' : 'person-name-field'}
      />
      <select
        value={colour}
        aria-label={
          person === null ? t('logbook.people.colourNew') : t('logbook.people.colourOf', { name: person.name })
        }
        onChange={(event) => setColour(event.target.value as PersonColour)}
      >
        {PERSON_COLOURS.map((one) => (
          <option key={one} value={one}>
            {t(`common.colour.${one}`)}
          </option>
        ))}
      </select>
      <button
        type="submit"
        disabled={name.trim() === '' || same}
        aria-label={person === null ? undefined : t('logbook.people.saveWhom', { name: person.name })}
        data-testid={person === null ? 'new-person-add' : 'person-save'}
      >
        {t(person === null ? 'logbook.does.add' : 'logbook.does.save')}
      </button>
      {person !== null && (
        <>
          <button
            type="button"
            disabled={attempts > 0}
            title={t(attempts > 0 ? 'logbook.people.cannotRemove' : 'logbook.people.removeName')}
            aria-label={t('logbook.people.removeWhom', { name: person.name })}
            onClick={() => void changed(() => storeHost().removePerson(person.id))}
            data-testid="person-remove"
          >
            {t('logbook.does.remove')}
          </button>
          <small className="log-quiet">{t('logbook.people.attempts', { count: attempts })}</small>
        </>
      )}
    </form>
  );
  return person === null ? form : <li data-testid="person-editor">{form}</li>;
}
