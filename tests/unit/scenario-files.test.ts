import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatProblem, type Result } from '../../physics/core/result.ts';
import { eyeAt } from '../../physics/eye/age.ts';
import { lineDiameterFor_mm } from '../../physics/eye/radial.ts';
import { jsonSchemaFiles } from '../../physics/scenario/json-schema.ts';
import { handMisfits, parseHand } from '../../physics/scenario/parse-hand.ts';
import { parseScenario } from '../../physics/scenario/parse-scenario.ts';
import type { Scenario } from '../../physics/scenario/scenario.ts';
import { TEACHING_CAUTION } from '../../physics/world/attempt-result.ts';
import { LESSONS } from '../../scenarios/lessons.ts';
import { FAILING_HAND, HOLDING_HAND, SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';
import { lessonsModule } from '../support/lessons-text.ts';

const folder = new URL('../../scenarios/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, folder), 'utf8');
/** Stands in for the eye: what an infant's zonule-free zone measures. */
const freeAt = () => 5.8;
const scenario = (text: string) => parseScenario(text, 'file.json', freeAt);
const hand = (text: string) => parseHand(text, 'file.json');

type Json = Record<string, unknown>;
const goodScenario = () =>
  JSON.parse(read('infant-thick-fluid.json')) as Record<string, Json> & { incisions: Json[]; tolerances: Json[] };
const goodGuided = () => JSON.parse(read('hands/infant-thick-holding.json')) as Record<string, Json>;
const sample = (t_s: number) => ({ t_s, x_mm: 1, y_mm: 2, lift_mm: 0.1, jaws: 1, instrument: 'forceps', incision: 0 });
const goodTrack = () => ({ rimwardHand: 1, kind: 'track', id: 'a', title: 'A', samples: [sample(0), sample(0.5)] });

const paths = (result: Result<unknown>) => (result.ok ? [] : result.problems.map((problem) => problem.path));
const lines = (result: Result<unknown>) => (result.ok ? [] : result.problems.map(formatProblem));

describe('shipped files', () => {
  const files = (sub: string) => readdirSync(new URL(sub, folder)).filter((name) => /^[a-z0-9-]+\.json$/.test(name));

  it.each(files('.'))('scenario %s is sound, named by its id, and has a hand that fits', (name) => {
    const result = scenario(read(name));
    expect(lines(result)).toEqual([]);
    const value = (result as { value: Scenario }).value;
    expect(`${value.id}.json`).toBe(name);
    for (const id of [HOLDING_HAND[value.id], FAILING_HAND[value.id]]) {
      const played = hand(read(`hands/${id}.json`));
      expect(played.ok && handMisfits(played.value, value, 'hand')).toEqual([]);
    }
  });

  it.each(files('.'))('line of scenario %s is where the model puts it for the target, within 0.1 mm', (name) => {
    const result = parseScenario(read(name), name);
    expect(lines(result)).toEqual([]);
    const { eye, target } = (result as { value: Scenario }).value;
    const held = eyeAt(eye.age_years, eye);
    const line = lineDiameterFor_mm(held, target.diameter_mm, held.baseTension_mN_per_mm);
    expect(Math.abs(target.lineDiameter_mm - line)).toBeLessThan(0.1);
  });

  it.each(files('.'))('scenario %s has a lesson under its own title, with the caution', (name) => {
    const { id, title } = JSON.parse(read(name)) as Scenario;
    expect(LESSONS[id].split('\n')[0]).toBe(`# ${title}`);
    expect(LESSONS[id].trimEnd().endsWith(TEACHING_CAUTION)).toBe(true);
  });

  it('every lesson is that of a scenario, and the module holds them as they stand on disk', () => {
    expect(Object.keys(LESSONS).sort()).toEqual(SHIPPED_SCENARIOS.map(({ id }) => id).sort());
    expect(read('lessons.ts')).toBe(lessonsModule());
  });

  it.each(files('hands/'))('hand %s is sound and named by its id', (name) => {
    const result = hand(read(`hands/${name}`));
    expect(lines(result)).toEqual([]);
    expect(result.ok && `${result.value.id}.json`).toBe(name);
  });

  it('all stand in the shipped list, as they stand on disk', () => {
    const listed = [...SHIPPED_SCENARIOS, ...SHIPPED_HANDS];
    for (const { file, data } of listed)
      expect(JSON.parse(readFileSync(new URL(`../${file}`, folder), 'utf8'))).toEqual(data);
    expect(SHIPPED_SCENARIOS.length).toBe(files('.').length);
    expect(SHIPPED_HANDS.length).toBe(files('hands/').length);
  });

  it.each(Object.entries(jsonSchemaFiles()))('%s is what the program generates', (name, text) => {
    expect(JSON.parse(read(name))).toEqual(JSON.parse(text));
  });
});

describe('a bad scenario', () => {
  it('that is cut off gives one problem with the place', () => {
    const result = scenario(read('infant-thick-fluid.json').slice(0, 300));
    expect(paths(result)).toEqual(['']);
    expect(lines(result)[0]).toMatch(/not JSON/);
  });

  it.each(['NaN', 'Infinity', '-Infinity'])('with the token %s is refused', (token) => {
    const result = scenario(read('infant-thick-fluid.json').replace('"age_years": 0.5', `"age_years": ${token}`));
    expect(lines(result)[0]).toMatch(/not JSON.*no NaN or Infinity/);
  });

  it('with a number beyond what a double holds is refused', () => {
    const result = scenario(read('infant-thick-fluid.json').replace('"age_years": 0.5', '"age_years": 1e999'));
    expect(lines(result)).toEqual(['file.json: eye.age_years: found Infinity, allowed: a finite number']);
  });

  it.each([2, 0, '1', null])('of version %j is refused without judging the rest', (version) => {
    expect(paths(scenario(JSON.stringify({ ...goodScenario(), rimwardScenario: version, id: 5 })))).toEqual([
      'rimwardScenario',
    ]);
  });

  it('lists everything that is wrong at once', () => {
    const bad = goodScenario();
    bad.eye.age_years = 400;
    bad.eye.overrides = { thickness_um: -3 };
    bad.eye.colour = 'blue';
    bad.chamber.fluid = 'water';
    bad.start.innerRadius_mm = 2.5;
    bad.incisions.length = 0;
    bad.target.diameter_mm = 1.5;
    bad.tolerances.push(
      { metric: 'beauty', atLeast: 1 },
      { metric: 'circularity', atLeast: 0.9, atMost: 0.8 },
      { metric: 'grasps' },
    );
    delete bad.aids.arrows;
    expect(lines(scenario(JSON.stringify(bad))).sort()).toEqual(
      [
        'file.json: aids.arrows: found nothing, allowed: a boolean',
        'file.json: chamber.fluid: found "water", allowed: "saline", "hpmc-2", "ha-1.0", "ha-1.4", "ha-1.8", "ha-2.3", "ha-3.0"',
        'file.json: eye.age_years: found 400, allowed: at most 95',
        'file.json: eye.colour: found an unknown key, allowed: only the keys of the schema',
        'file.json: eye.overrides.thickness_um: found -3, allowed: above 0',
        'file.json: incisions: found a list of 0 items, allowed: at least 1 item',
        'file.json: start.innerRadius_mm: found 2.5, allowed: below start.radius_mm, 1.9',
        'file.json: target.diameter_mm: found 1.5, allowed: at least 2',
        'file.json: tolerances[7].metric: found "beauty", allowed: a metric of the opening or of the work',
        'file.json: tolerances[8].atLeast: found 0.9, allowed: at most atMost, 0.8',
        'file.json: tolerances[8].metric: found circularity again, allowed: each metric once',
        'file.json: tolerances[9]: found no limit, allowed: atLeast, atMost or both',
      ].sort(),
    );
  });

  it('whose target, line or flap reaches the zonules is refused', () => {
    const wide = goodScenario();
    wide.target.diameter_mm = 5.8;
    wide.target.lineDiameter_mm = 6;
    wide.start.radius_mm = 2.9;
    expect(paths(scenario(JSON.stringify(wide)))).toEqual([
      'target.diameter_mm',
      'target.lineDiameter_mm',
      'start.radius_mm',
    ]);
    wide.eye.overrides = { zonuleFreeDiameter_mm: 6.5 };
    expect(lines(scenario(JSON.stringify(wide)))).toEqual([]);
  });

  it('that is too long is refused unread', () => {
    expect(lines(scenario(' '.repeat(20_000_001)))).toEqual([
      'file.json: found 20000001 characters, allowed: at most 20000000',
    ]);
  });
});

describe('a bad hand', () => {
  it('whose time stands still or runs back is refused', () => {
    const track = goodTrack();
    track.samples.push(sample(0.5), sample(0.2), sample(0.3));
    expect(paths(hand(JSON.stringify(track)))).toEqual(['samples[2].t_s', 'samples[3].t_s']);
  });

  it('that names an incision the scenario lacks does not fit it', () => {
    const track = goodTrack();
    track.samples[1].incision = 2;
    const parsed = hand(JSON.stringify(track));
    const eye = scenario(read('infant-thick-fluid.json'));
    if (!parsed.ok || !eye.ok) throw new Error('both files are sound');
    expect(handMisfits(parsed.value, eye.value, 'h').map((problem) => problem.path)).toEqual(['samples[1].incision']);
    track.samples[1].incision = 8;
    expect(paths(hand(JSON.stringify(track)))).toEqual(['samples[1].incision']);
  });

  it('that begins otherwise than the scenario does not fit it', () => {
    const parsed = hand(JSON.stringify({ ...goodGuided(), start: 'needle' }));
    const eye = scenario(read('infant-thick-fluid.json'));
    if (!parsed.ok || !eye.ok) throw new Error('both files are sound');
    expect(handMisfits(parsed.value, eye.value, 'h')).toHaveLength(1);
  });

  it('with too many samples, angles out of order or crossed limits is refused', () => {
    const long = { ...goodTrack(), samples: Array.from({ length: 200_001 }, (_, i) => sample(i / 100)) };
    expect(lines(hand(JSON.stringify(long)))).toEqual([
      'file.json: samples: found a list of 200001 items, allowed: at most 200000 items',
    ]);
    const guided = goodGuided();
    guided.follow.minAngle_deg = 130;
    expect(
      paths(
        hand(
          JSON.stringify({
            ...guided,
            pullAngle_deg: [
              [0, 10],
              [0, 20],
              [10, 200],
            ],
          }),
        ),
      ),
    ).toEqual(['pullAngle_deg[2][1]', 'pullAngle_deg[1][0]', 'follow.minAngle_deg']);
  });

  it('with a flood of problems lists 200 and counts the rest', () => {
    const track = { ...goodTrack(), samples: Array.from({ length: 300 }, (_, i) => ({ ...sample(i), jaws: 2 })) };
    const result = hand(JSON.stringify(track));
    expect(lines(result)).toHaveLength(201);
    expect(lines(result)[200]).toMatch(/100 more problems/);
  });

  it('may still ask for a jump across the eye at any speed', () => {
    const track = goodTrack();
    track.samples[1].x_mm = -40;
    expect(lines(hand(JSON.stringify(track)))).toEqual([]);
  });
});

/** Paths of every number that is not finite inside parsed data. */
function nonFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => nonFinite(inner, `${path}.${key}`));
}

describe('any text at all', () => {
  const judge = (text: string) => {
    for (const result of [scenario(text), hand(text)]) {
      if (result.ok) expect(nonFinite(result.value)).toEqual([]);
      else {
        expect(result.problems.length).toBeGreaterThan(0);
        for (const problem of result.problems) expect(formatProblem(problem)).toMatch(/found .+, allowed: .+/s);
      }
    }
  };

  it('the finder of non-finite numbers finds them', () => {
    expect(nonFinite({ a: [1, { b: Number.NaN }], c: Infinity })).toEqual(['.a.1.b', '.c']);
  });

  it('arbitrary text and arbitrary JSON never throw', () => {
    fc.assert(fc.property(fc.string(), judge), { numRuns: 300 });
    fc.assert(fc.property(fc.json(), judge), { numRuns: 500 });
    judge('['.repeat(100_000));
    judge(`{"rimwardHand":1,"kind":"track","samples":${'['.repeat(5000)}${']'.repeat(5000)}}`);
    judge('{"__proto__":{"rimwardHand":1},"constructor":1}');
  });

  it('good files with any value put anywhere never throw and never let a non-finite number through', () => {
    const odd = fc.oneof(fc.constantFrom('1e999', '-1e999', 'null', '{}', '[]', '""', '1e-320', '-0'), fc.json());
    const texts = [
      read('infant-thick-fluid.json'),
      read('hands/infant-thick-holding.json'),
      JSON.stringify(goodTrack()),
    ];
    const mutated = fc.tuple(fc.constantFrom(...texts), fc.nat(), odd).map(([text, where, value]) => {
      const spots = [...text.matchAll(/: ?("[^"]*"|[\d.]+|true|false)/g)];
      const spot = spots[where % spots.length];
      return `${text.slice(0, spot.index)}: ${value}${text.slice(spot.index + spot[0].length)}`;
    });
    fc.assert(fc.property(mutated, judge), { numRuns: 1000 });
  });
});
