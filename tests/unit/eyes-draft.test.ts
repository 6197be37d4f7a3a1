import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkScenario, eyeAt, type Scenario } from '../../physics/index.ts';
import adult from '../../scenarios/adult-baseline.json' with { type: 'json' };
import infant from '../../scenarios/infant-thick-fluid.json' with { type: 'json' };
import { checkDraft, freeId } from '../../src-renderer/places/eyes/check-draft.ts';
import {
  copyOf,
  deskText,
  editedDocument,
  isUnsaved,
  laidOut,
  readDesk,
  savedDocument,
  takenIds,
} from '../../src-renderer/places/eyes/documents.ts';
import {
  type Draft,
  draftOf,
  type Json,
  pathText,
  sameJson,
  typedNumber,
  valueIn,
  withValue,
} from '../../src-renderer/places/eyes/draft.ts';
import { edited, freshHistory, redone, settled, undone } from '../../src-renderer/places/eyes/edit-history.ts';
import { limitsAt, limitsWords } from '../../src-renderer/places/eyes/limits.ts';
import { tabOf } from '../../src-renderer/places/eyes/tabs.ts';
import { placedLine_mm, whatFollows } from '../../src-renderer/places/eyes/what-follows.ts';

function shipped(data: unknown): Scenario {
  const checked = checkScenario(data, 'shipped');
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.value;
}
const ADULT = shipped(adult);
const INFANT = shipped(infant);
const none = new Set<string>();

describe('a scenario while it is written', () => {
  it('keeps what is typed, as a number where it is one and as text where it is none', () => {
    expect(['4.5', ' 4,5 ', '−2', '1e1', '.5'].map(typedNumber)).toEqual([4.5, 4.5, -2, 10, 0.5]);
    expect(['', '4,5,6', 'abc', '1e999', 'Infinity', '0x10', '4.5mm'].map(typedNumber)).toEqual([
      '',
      '4,5,6',
      'abc',
      '1e999',
      'Infinity',
      '0x10',
      '4.5mm',
    ]);
  });

  it('changes one place and leaves the draft before as it was', () => {
    const before = draftOf(ADULT);
    const text = JSON.stringify(before);
    const after = withValue(before, ['incisions', 1, 'width_mm'], 2);
    expect(valueIn(after, ['incisions', 1, 'width_mm'])).toBe(2);
    expect(JSON.stringify(before)).toBe(text);
    expect(valueIn(withValue(after, ['trial', 'pause'], true), ['trial', 'pause'])).toBe(true);
    expect(withValue(after, ['incisions', 1, 'width_mm'], 1.2)).toEqual(before);
    expect(Object.keys(withValue(before, ['eye', 'overrides', 'thickness_um'], undefined))).toEqual(
      Object.keys(before),
    );
    expect(pathText(['eye', 'lensOffset_mm', 0])).toBe('eye.lensOffset_mm[0]');
  });

  it.each([
    [['eye', 'age_years'], 'young', 'eye.age_years'],
    [['eye', 'age_years'], 96, 'eye.age_years'],
    [['eye', 'overrides', 'thickness_um'], 0, 'eye.overrides.thickness_um'],
    [['target', 'diameter_mm'], 8.9, 'target.diameter_mm'],
    [['start', 'radius_mm'], '', 'start.radius_mm'],
    [['tolerances', 0], { metric: 'circularity' }, 'tolerances[0]'],
    [['incisions'], [], 'incisions'],
    [['title'], '', 'title'],
    [['id'], 'Not An Id', 'id'],
  ] as const)('%j set to %j is a problem at %s, with what was found and what is allowed', (path, value, place) => {
    const { scenario, problems } = checkDraft(withValue(draftOf(ADULT), path, value as Json), none);
    expect(scenario).toBeNull();
    const problem = problems.find((one) => one.path === place);
    expect(problem?.found).not.toBe('');
    expect(problem?.allowed).not.toBe('');
  });

  it('may not take the name of another scenario', () => {
    expect(checkDraft(draftOf(ADULT), new Set(['other'])).problems).toEqual([]);
    expect(checkDraft(draftOf(ADULT), new Set([ADULT.id])).problems[0]?.path).toBe('id');
    expect(freeId('Mädchen, 2 Jahre!', none)).toBe('madchen-2-jahre');
    expect(freeId('x', new Set(['x', 'x-2']))).toBe('x-3');
    expect(freeId('…', none)).toBe('scenario');
    expect(freeId('a'.repeat(80), new Set(['a'.repeat(56)])).length).toBeLessThanOrEqual(64);
  });

  it('any draft at all gives a scenario or problems, never a fault', () => {
    const places = fc.constantFrom<readonly (string | number)[]>(
      ['eye'],
      ['eye', 'age_years'],
      ['eye', 'lensOffset_mm'],
      ['eye', 'overrides'],
      ['eye', 'weakZonule'],
      ['start'],
      ['start', 'kind'],
      ['incisions'],
      ['tolerances'],
      ['tolerances', 2],
      ['target'],
      ['aids'],
      ['id'],
    );
    fc.assert(
      fc.property(places, fc.jsonValue({ maxDepth: 3 }), (path, value) => {
        const { scenario, problems } = checkDraft(withValue(draftOf(INFANT), path, value as Json), none);
        expect(scenario === null).toBe(problems.length > 0);
      }),
      { numRuns: 400, seed: 5 },
    );
  });
});

describe('undo and redo', () => {
  it('takes typing in one field as one edit until it is settled', () => {
    let history = freshHistory<Draft>({ a: 1 });
    for (const a of [12, 123, 1234]) history = edited(history, { a }, 'a');
    expect(history.past.length).toBe(1);
    history = edited(settled(history), { a: 5 }, 'a');
    expect(history.past.length).toBe(2);
    expect(undone(history).now).toEqual({ a: 1234 });
    expect(undone(undone(undone(history))).now).toEqual({ a: 1 });
    expect(redone(redone(undone(undone(history)))).now).toEqual({ a: 5 });
    expect(edited(history, { a: 5 }, 'b')).toBe(history);
    expect(edited(undone(history), { a: 7 }, 'a').future).toEqual([]);
  });
});

describe('the desk between two starts', () => {
  it('brings unsaved work back over the saved scenario, and work whose scenario is gone as unsaved', () => {
    const own = { ...ADULT, id: 'mine', title: 'Mine' };
    const changed = editedDocument(savedDocument(own), ['title'], 'Changed');
    const fresh = copyOf(draftOf(INFANT), [changed], true);
    expect([isUnsaved(savedDocument(own)), isUnsaved(changed), isUnsaved(fresh)]).toEqual([false, true, true]);
    const kept = readDesk(deskText([changed, fresh], changed.key));
    const again = laidOut([ADULT, INFANT], [own], kept);
    expect(again.find(({ key }) => key === changed.key)?.history.now.title).toBe('Changed');
    expect(again.filter(isUnsaved).length).toBe(2);
    expect(
      laidOut([ADULT], [], kept)
        .filter(isUnsaved)
        .map(({ saved }) => saved),
    ).toEqual([null, null]);
    expect(takenIds(again, changed.key).has('mine')).toBe(false);
  });

  it.each(['', '{', '[]', 'null', '{"rimwardEyeDrafts":2}', '{"rimwardEyeDrafts":1,"chosen":1,"drafts":[]}'])(
    'takes %j for no desk of ours',
    (text) => expect(readDesk(text)).toBeNull(),
  );

  it('leaves a draft out that is none', () => {
    const text =
      '{"rimwardEyeDrafts":1,"chosen":"x","drafts":[null,{"key":"a","savedId":null,"draft":[]},{"key":"b","savedId":null,"draft":{}}]}';
    expect(readDesk(text)?.drafts.map(({ key }) => key)).toEqual(['b']);
  });

  it('compares content, not the order of keys', () => {
    expect(sameJson({ a: 1, b: [1, { c: 2 }] }, { b: [1, { c: 2 }], a: 1 })).toBe(true);
    expect(sameJson({ a: 1 }, { a: 1, b: 2 })).toBe(false);
    expect(sameJson([], {})).toBe(false);
  });
});

describe('what the screen says of a scenario', () => {
  it('reads limits from the schema of files, so that the value beside a limit is refused', () => {
    const { high } = limitsAt(['eye', 'age_years']);
    expect(high).toBe(95);
    expect(checkDraft(withValue(draftOf(ADULT), ['eye', 'age_years'], (high ?? 0) + 0.1), none).scenario).toBeNull();
    expect(limitsWords(limitsAt(['eye', 'overrides', 'thickness_um']), 'µm')).toBe('above 0, up to 100\u00a0µm');
    expect(limitsWords(limitsAt(['eye', 'lensOffset_mm', 1]), 'mm')).toBe('−2 to 2\u00a0mm');
    expect(limitsWords(limitsAt(['start', 'nick_mm'], 'two-nicks'), 'mm')).toBe('0.05 to 2\u00a0mm');
    expect(limitsWords(limitsAt(['start', 'nick_mm'], 'flap'), 'mm')).toBe('');
    expect(limitsWords(limitsAt(['incisions', 3, 'width_mm']), 'mm')).toBe('0.3 to 6\u00a0mm');
  });

  it('places the line so that the opening it promises is the one wanted', () => {
    for (const wanted of [4, 4.8, 5.2]) {
      const line = placedLine_mm(INFANT, wanted);
      const follows = whatFollows({ ...INFANT, target: { ...INFANT.target, lineDiameter_mm: line } });
      expect(follows.opening_mm).toBeCloseTo(wanted, 1);
      expect(line).toBeLessThan(wanted);
    }
  });

  it('raises net pressure and tension by what pushes from behind and inside, less what fills the chamber', () => {
    const calm = whatFollows(ADULT);
    const pushed = whatFollows({
      ...ADULT,
      chamber: { ...ADULT.chamber, behindPressure_mmHg: 6, insidePressure_mmHg: 3 },
    });
    expect(pushed.netPressure_mmHg - calm.netPressure_mmHg).toBeCloseTo(8, 10);
    expect(pushed.tension_mN_per_mm).toBeGreaterThan(calm.tension_mN_per_mm);
    expect(eyeAt(65, { stiffnessPreset: 'uniaxial', dyed: false }).baseTension_mN_per_mm).toBeCloseTo(
      calm.tension_mN_per_mm,
      10,
    );
  });

  it('finds the part of the editor that holds a place', () => {
    expect(['eye.overrides.thickness_um', 'tolerances[2].atMost', 'incisions', 'seed', 'unknown'].map(tabOf)).toEqual([
      'eye',
      'grades',
      'start',
      'rules',
      'name',
    ]);
  });
});
