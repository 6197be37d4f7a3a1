import { type FormEvent, useState } from 'react';
import type { ClassGroup, Person } from '../../../../src-main/ipc/contract.ts';
import { t } from '../../../i18n/text.ts';
import { Ask } from '../Ask.tsx';
import { loadLogbook, useLogbook } from '../logbook-store.ts';
import { tryOrSay } from '../save-text.ts';
import { storeHost } from '../store-host.ts';

async function changed(work: () => Promise<void>): Promise<boolean> {
  if ((await tryOrSay(() => work().then(() => true))) === null) return false;
  await loadLogbook();
  return true;
}

/** One change of members after the other: two quick ticks must not undo each other. */
let saving: Promise<unknown> = Promise.resolve();

/** One class to rename, fill or remove; with null, a new one to add. */
export function ClassEditor({
  group,
  people,
}: {
  readonly group: ClassGroup | null;
  readonly people: readonly Person[];
}) {
  const [name, setName] = useState(group?.name ?? '');
  const save = async (event: FormEvent) => {
    event.preventDefault();
    const saved: ClassGroup = {
      id: group?.id ?? crypto.randomUUID(),
      name: name.trim(),
      memberIds: group?.memberIds ?? [],
    };
    const done = await changed(() => storeHost().saveClass(saved));
    if (done && group === null) setName('');
  };
  const form = (
    <form className="log-form" onSubmit={(event) => void save(event)}>
      <input
        value={name}
        maxLength={80}
        autoComplete="off"
        aria-label={
          group === null ? t('logbook.people.nameNewClass') : t('logbook.people.nameOf', { name: group.name })
        }
        placeholder={group === null ? t('logbook.people.newClass') : undefined}
        onChange={(event) => setName(event.target.value)}
        data-testid={group === null ? 'new-class-name' : 'class-name-field'}
      />
      <button
        type="submit"
        disabled={name.trim() === '' || name.trim() === group?.name}
        aria-label={group === null ? undefined : t('logbook.people.saveWhom', { name: group.name })}
        data-testid={group === null ? 'new-class-add' : 'class-save'}
      >
        {t(group === null ? 'logbook.does.add' : 'logbook.does.save')}
      </button>
      {group !== null && <RemoveClass group={group} />}
    </form>
  );
  if (group === null) return form;
  return (
    <li data-testid="class-editor">
      {form}
      <Members group={group} people={people} />
    </li>
  );
}

function RemoveClass({ group }: { readonly group: ClassGroup }) {
  const [asking, setAsking] = useState(false);
  return (
    <>
      <button
        type="button"
        aria-label={t('logbook.people.removeWhom', { name: group.name })}
        onClick={() => setAsking(true)}
        data-testid="class-remove"
      >
        {t('logbook.does.remove')}
      </button>
      {asking && (
        <Ask
          question={t('logbook.people.askRemoveClass', { name: group.name })}
          yes={t('logbook.people.removeClass')}
          onYes={() => {
            setAsking(false);
            void changed(() => storeHost().removeClass(group.id));
          }}
          onNo={() => setAsking(false)}
        >
          <p>{t('logbook.people.peopleStay')}</p>
        </Ask>
      )}
    </>
  );
}

function Members({ group, people }: { readonly group: ClassGroup; readonly people: readonly Person[] }) {
  const set = (id: string, on: boolean) => {
    saving = saving.then(() =>
      changed(() => {
        const now = useLogbook.getState().classes.find((one) => one.id === group.id) ?? group;
        const others = now.memberIds.filter((one) => one !== id);
        return storeHost().saveClass({ ...now, memberIds: on ? [...others, id] : others });
      }),
    );
  };
  return (
    <fieldset className="log-members">
      <legend>{t('logbook.people.members')}</legend>
      {people.map(({ id, name }) => (
        <label key={id}>
          <input
            type="checkbox"
            checked={group.memberIds.includes(id)}
            onChange={(event) => set(id, event.target.checked)}
          />
          {name}
        </label>
      ))}
    </fieldset>
  );
}
