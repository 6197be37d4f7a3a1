import { Refusal } from '../ipc/answer.ts';
import type { ClassGroup, Person, PersonColour } from '../ipc/contract.ts';
import { PERSON_COLOURS } from '../ipc/contract.ts';
import type { Database, Row } from './sqlite.ts';

/** A colour the page knows, also where the file says another. */
const colourOf = (text: unknown): PersonColour => PERSON_COLOURS.find((colour) => colour === text) ?? PERSON_COLOURS[0];

const personOf = (row: Row): Person => ({
  id: String(row.id),
  name: String(row.name),
  colour: colourOf(row.colour),
});

export const listPeople = (database: Database): readonly Person[] =>
  database.all('SELECT id, name, colour FROM people ORDER BY name COLLATE NOCASE, id').map(personOf);

export function findPerson(database: Database, id: string): Person | null {
  const row = database.one('SELECT id, name, colour FROM people WHERE id = ?', id);
  return row === undefined ? null : personOf(row);
}

export function savePerson(database: Database, { id, name, colour }: Person): void {
  database.run(
    `INSERT INTO people (id, name, colour) VALUES (?, ?, ?)
     ON CONFLICT (id) DO UPDATE SET name = excluded.name, colour = excluded.colour`,
    id,
    name,
    colour,
  );
}

/** Refuses while the person has attempts. */
export function removePerson(database: Database, id: string): void {
  database.transaction(() => {
    const attempts = Number(database.value('SELECT count(*) FROM attempts WHERE person_id = ?', id));
    if (attempts > 0) {
      const count = attempts === 1 ? 'one attempt' : `${attempts} attempts`;
      throw new Refusal(`This person has ${count} here. Remove those first, or keep the person.`);
    }
    if (database.run('DELETE FROM people WHERE id = ?', id) === 0) throw new Refusal('There is no such person here.');
  });
}

export function listClasses(database: Database): readonly ClassGroup[] {
  const members = database.all('SELECT class_id, person_id FROM class_members ORDER BY position');
  return database.all('SELECT id, name FROM classes ORDER BY name COLLATE NOCASE, id').map(({ id, name }) => ({
    id: String(id),
    name: String(name),
    memberIds: members.filter((member) => member.class_id === id).map((member) => String(member.person_id)),
  }));
}

/** Adds or changes by id; the list of members is the new one, in its order. Refuses members who are not here. */
export function saveClass(database: Database, { id, name, memberIds }: ClassGroup): void {
  database.transaction(() => {
    const unknown = memberIds.find((member) => findPerson(database, member) === null);
    if (unknown !== undefined) throw new Refusal(`The class names somebody who is not here (${unknown}).`);
    database.run(
      'INSERT INTO classes (id, name) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET name = excluded.name',
      id,
      name,
    );
    database.run('DELETE FROM class_members WHERE class_id = ?', id);
    for (const [position, member] of [...new Set(memberIds)].entries()) {
      database.run('INSERT INTO class_members (class_id, person_id, position) VALUES (?, ?, ?)', id, member, position);
    }
  });
}

/** The people stay. */
export function removeClass(database: Database, id: string): void {
  if (database.run('DELETE FROM classes WHERE id = ?', id) === 0) throw new Refusal('There is no such class here.');
}
