import { create } from 'zustand';
import type { Person, PersonColour } from '../../src-main/ipc/contract.ts';
import { faultText } from '../i18n/content.ts';
import { t } from '../i18n/text.ts';

/** Preference that remembers who works on this machine. */
const CURRENT = 'person.current';
/** Stands in for everybody until somebody gives a name. */
const first = (): Omit<Person, 'id'> => ({ name: t('common.people.me'), colour: 'amber' });

interface PeopleState {
  readonly people: readonly Person[];
  /** Who works now; null where no program around the page keeps people. */
  readonly current: Person | null;
  /** Why people could not be read or changed, as a line; null when all is well. */
  readonly trouble: string | null;
}

export const usePeople = create<PeopleState>(() => ({ people: [], current: null, trouble: null }));

const reason = (fault: unknown): string =>
  fault instanceof Error ? faultText(fault) : t('common.people.unknownReason');

/** Reads the people again. On a new machine there is one, "Me", so that nothing stands in a newcomer's way. */
export async function loadPeople(): Promise<void> {
  const host = window.rimwardHost;
  if (host === undefined) return;
  try {
    let people = await host.listPeople();
    if (people.length === 0) {
      await host.savePerson({ id: crypto.randomUUID(), ...first() });
      people = await host.listPeople();
    }
    const wanted = usePeople.getState().current?.id ?? (await host.loadPreferences())[CURRENT];
    const current = people.find(({ id }) => id === wanted) ?? people[0] ?? null;
    usePeople.setState({ people, current, trouble: null });
  } catch (fault) {
    usePeople.setState({ trouble: t('common.people.unread', { reason: reason(fault) }) });
  }
}

/** From now on attempts are this person's. */
export async function workAs(person: Person): Promise<void> {
  usePeople.setState({ current: person, trouble: null });
  try {
    await window.rimwardHost?.savePreference(CURRENT, person.id);
  } catch (fault) {
    usePeople.setState({ trouble: t('common.people.forgotten', { reason: reason(fault) }) });
  }
}

/**
 * Adds somebody and lets them work.
 * @param name 1 to 80 characters
 */
export async function addPerson(name: string, colour: PersonColour): Promise<boolean> {
  return savePerson({ id: crypto.randomUUID(), name, colour });
}

/** Adds or changes somebody by id and lets them work. @returns whether it was kept */
export async function savePerson(person: Person): Promise<boolean> {
  const host = window.rimwardHost;
  if (host === undefined) return false;
  try {
    await host.savePerson(person);
    await workAs(person);
    await loadPeople();
    return true;
  } catch (fault) {
    usePeople.setState({ trouble: reason(fault) });
    return false;
  }
}
