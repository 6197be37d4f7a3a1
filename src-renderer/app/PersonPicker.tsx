import { type FormEvent, useRef, useState } from 'react';
import { PERSON_COLOURS, type PersonColour } from '../../src-main/ipc/contract.ts';
import { t } from '../i18n/text.ts';
import { addPerson, loadPeople, usePeople, workAs } from '../stores/people-store.ts';
import { PersonMark } from '../ui/PersonMark.tsx';

/** Who works now, at the foot of the bar; opens the list of people. */
export function PersonPicker() {
  const current = usePeople((state) => state.current);
  const trouble = usePeople((state) => state.trouble);
  const dialog = useRef<HTMLDialogElement>(null);
  if (window.rimwardHost === undefined) return null;
  const name = current?.name ?? (trouble === null ? '…' : t('common.people.nobody'));
  const open = () => {
    void loadPeople();
    dialog.current?.showModal();
  };
  return (
    <>
      <button
        type="button"
        className="bar-button"
        data-testid="person"
        onClick={open}
        title={t('common.people.change', { name })}
        aria-label={t('common.people.change', { name })}
      >
        {current !== null && <PersonMark name={current.name} colour={current.colour} />}
        <span className="bar-name">{name}</span>
      </button>
      <dialog ref={dialog} className="people" aria-label={t('common.people.label')} data-testid="people">
        <h2>{t('common.people.title')}</h2>
        <p className="hint">{t('common.people.hint')}</p>
        <PeopleList done={() => dialog.current?.close()} />
        <AddPerson done={() => dialog.current?.close()} />
        {trouble !== null && (
          <p className="problems" role="alert">
            {trouble}
          </p>
        )}
        <form method="dialog">
          <button type="submit">{t('common.close')}</button>
        </form>
      </dialog>
    </>
  );
}

function PeopleList({ done }: { readonly done: () => void }) {
  const people = usePeople((state) => state.people);
  const current = usePeople((state) => state.current);
  return (
    <ul className="people-list">
      {people.map((person) => (
        <li key={person.id}>
          <button
            type="button"
            aria-pressed={person.id === current?.id}
            onClick={() => {
              void workAs(person);
              done();
            }}
          >
            <PersonMark name={person.name} colour={person.colour} />
            <span>{person.name}</span>
            {person.id === current?.id && <small>{t('common.people.now')}</small>}
          </button>
        </li>
      ))}
    </ul>
  );
}

function AddPerson({ done }: { readonly done: () => void }) {
  const [name, setName] = useState('');
  const [colour, setColour] = useState<PersonColour>('teal');
  const add = async (event: FormEvent) => {
    event.preventDefault();
    if (!(await addPerson(name.trim(), colour))) return;
    setName('');
    done();
  };
  return (
    <form className="person-form" onSubmit={(event) => void add(event)} aria-label={t('common.people.add')}>
      <label className="field">
        <span>{t('common.people.name')}</span>
        <input
          data-testid="person-name"
          value={name}
          maxLength={80}
          autoComplete="off"
          onChange={(event) => setName(event.target.value)}
        />
      </label>
      <label className="field">
        <span>{t('common.people.colour')}</span>
        <select value={colour} onChange={(event) => setColour(event.target.value as PersonColour)}>
          {PERSON_COLOURS.map((one) => (
            <option key={one} value={one}>
              {t(`common.colour.${one}`)}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" disabled={name.trim() === ''} data-testid="add-person">
        {t('common.people.addThis')}
      </button>
    </form>
  );
}
