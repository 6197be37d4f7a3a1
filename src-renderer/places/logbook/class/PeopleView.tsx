import { useMemo } from 'react';
import { t } from '../../../i18n/text.ts';
import { useLogbook } from '../logbook-store.ts';
import { ClassEditor } from './ClassEditor.tsx';
import { PersonEditor } from './PersonEditor.tsx';

/** Who works on this machine, and who belongs to which class. */
export function PeopleView() {
  const { people, classes, attempts } = useLogbook();
  const count = useMemo(() => {
    const counted = new Map<string, number>();
    for (const { personId } of attempts) counted.set(personId, (counted.get(personId) ?? 0) + 1);
    return counted;
  }, [attempts]);
  return (
    <div className="log-page log-columns" data-testid="people-view">
      <section className="log-column" aria-label={t('logbook.people.heading')}>
        <h3>{t('logbook.people.heading')}</h3>
        <p className="log-quiet">{t('logbook.people.noPassword')}</p>
        <ul className="log-editors">
          {people.map((person) => (
            <PersonEditor key={person.id} person={person} attempts={count.get(person.id) ?? 0} />
          ))}
        </ul>
        <PersonEditor person={null} attempts={0} />
      </section>
      <section className="log-column" aria-label={t('logbook.people.classes')}>
        <h3>{t('logbook.people.classes')}</h3>
        <ul className="log-editors">
          {classes.map((group) => (
            <ClassEditor key={group.id} group={group} people={people} />
          ))}
        </ul>
        <ClassEditor group={null} people={people} />
      </section>
    </div>
  );
}
