import { describe, expect, it } from 'vitest';
import { eyeAt } from '../../physics/eye/age.ts';
import { FITTED_AGES_years, fitBaseTension_mN_per_mm, publishedEnlargement } from '../../physics/eye/base-tension.ts';
import { monotoneCurve } from '../../physics/eye/monotone.ts';
import { eyeParameters } from '../../physics/eye/parameter-list.ts';
import { openingEnlargement } from '../../physics/eye/radial.ts';
import { stretchAtTension, unitLineTension_mN_per_mm } from '../../physics/eye/tension.ts';

const PRESETS = ['uniaxial', 'inflation'] as const;
const plain = { stiffnessPreset: 'uniaxial', dyed: false } as const;
/** Steps of a week: a newborn's zonule-free zone grows by up to 4 % in one. */
const everyWeek = Array.from({ length: 95 * 52 + 1 }, (_, i) => i / 52);
const everyAge = Array.from({ length: 381 }, (_, i) => i / 4);

describe('a monotone curve through a table', () => {
  it('passes through its knots, never overshoots and holds its ends', () => {
    const curve = monotoneCurve([
      [0, 0],
      [1, 0.1],
      [2, 5],
      [9, 5.1],
    ]);
    expect([curve(0), curve(1), curve(2), curve(9)]).toEqual([0, 0.1, 5, 5.1]);
    expect([curve(-3), curve(20)]).toEqual([0, 5.1]);
    for (let x = 0; x < 9; x += 0.01) expect(curve(x + 0.01)).toBeGreaterThanOrEqual(curve(x));
  });

  it('turns level at a peak of the table', () => {
    const curve = monotoneCurve([
      [0, 0],
      [1, 2],
      [3, 1],
    ]);
    for (let x = 0; x <= 3; x += 0.01) expect(curve(x)).toBeLessThanOrEqual(2);
  });
});

describe('the eye by age', () => {
  it('gives the table at its own ages', () => {
    const infant = eyeAt(0.5, plain);
    expect(infant.thickness_um).toBe(6.5);
    expect(infant.youngModulus_MPa).toBe(0.33);
    expect(infant.tearResistance_mN).toBe(14);
    expect(infant.lensDiameter_mm).toBe(7.66);
    expect(infant.anteriorRadius_mm).toBe(8.4);
    expect(infant.zonuleFreeDiameter_mm).toBe(5.8);
    const old = eyeAt(75, plain);
    expect(old.ruptureStrain).toBeCloseTo(0.56, 2);
    expect(old.ruptureStress_MPa).toBeCloseTo(2.7, 1);
  });

  it('is finite, positive and without jumps from 0 to 95 years, in both presets', () => {
    for (const stiffnessPreset of PRESETS) {
      let before = eyeParameters(eyeAt(0, { stiffnessPreset, dyed: false }));
      for (const age of everyWeek) {
        const now = eyeParameters(eyeAt(age, { stiffnessPreset, dyed: false }));
        now.forEach((row, i) => {
          const change = Math.abs(row.value / before[i].value - 1);
          if (!(Number.isFinite(row.value) && row.value > 0 && change < 0.05)) {
            expect.fail(`${row.key} at ${age}: ${before[i].value} to ${row.value}`);
          }
        });
        before = now;
      }
    }
  });

  it('keeps every value inside its own range and names its source', () => {
    for (const stiffnessPreset of PRESETS) {
      for (const dyed of [false, true]) {
        for (const age of everyAge) {
          for (const row of eyeParameters(eyeAt(age, { stiffnessPreset, dyed }))) {
            expect(row.value, `${row.key} at ${age}`).toBeGreaterThanOrEqual(row.range[0]);
            expect(row.value, `${row.key} at ${age}`).toBeLessThanOrEqual(row.range[1]);
            expect(row.source.length).toBeGreaterThan(20);
          }
        }
      }
    }
  });

  it('keeps the zonule-free zone inside the lens and the lens inside the eye', () => {
    for (const age of everyAge) {
      const eye = eyeAt(age, plain);
      expect(eye.zonuleFreeDiameter_mm).toBeLessThan(eye.lensDiameter_mm - 1);
      expect(eye.lensDiameter_mm).toBeLessThan(eye.limbusDiameter_mm);
    }
  });

  it('draws the uniaxial curve through the rupture point', () => {
    for (const stiffnessPreset of PRESETS) {
      for (const age of [0.5, 20, 75]) {
        const eye = eyeAt(age, { stiffnessPreset, dyed: false });
        const l = 1 + eye.ruptureStrain;
        const mu = eye.youngModulus_MPa / 3;
        const stress_MPa = mu * Math.exp(eye.stiffening * (l * l + 2 / l - 3)) * (l - l ** -2);
        expect(stress_MPa).toBeCloseTo(eye.ruptureStress_MPa, 9);
      }
    }
  });

  it('makes a dyed capsule tear more easily and nothing else', () => {
    const { tearResistance_mN, dyed, ...undyedRest } = eyeAt(2, plain);
    const { tearResistance_mN: dyedResistance_mN, dyed: _, ...dyedRest } = eyeAt(2, { ...plain, dyed: true });
    expect(dyed).toBe(false);
    expect(dyedResistance_mN / tearResistance_mN).toBeCloseTo(0.67, 12);
    expect(dyedRest).toEqual(undyedRest);
  });

  it('takes a scenario value and says that it is one', () => {
    const eye = eyeAt(2, { ...plain, overrides: { youngModulus_MPa: 0.5, thickness_um: 9 } });
    expect([eye.youngModulus_MPa, eye.thickness_um]).toEqual([0.5, 9]);
    expect(eye.stiffening).not.toBe(eyeAt(2, plain).stiffening);
    const rows = eyeParameters(eye);
    expect(rows.find((row) => row.key === 'thickness_um')).toMatchObject({ tag: 'assumed', source: 'scenario' });
    expect(rows.find((row) => row.key === 'lensDiameter_mm')?.source).not.toBe('scenario');
  });

  it('refuses an age or a value that cannot be', () => {
    for (const age of [-0.1, 96, Number.NaN]) expect(() => eyeAt(age, plain)).toThrow(RangeError);
    for (const thickness_um of [-1, 0, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => eyeAt(2, { ...plain, overrides: { thickness_um } })).toThrow(RangeError);
    }
  });
});

describe('tension of the uncut capsule', () => {
  it('is undone by its inverse', () => {
    const eye = eyeAt(0.5, plain);
    for (const tension of [0, 0.01, 1, 10, 300]) {
      expect(unitLineTension_mN_per_mm(stretchAtTension(tension, eye), eye)).toBeCloseTo(tension, 8);
    }
    expect(() => stretchAtTension(-1, eye)).toThrow(RangeError);
  });

  it('grows as twice E t strain over 2 (1 - nu) at small stretch', () => {
    const eye = eyeAt(40, plain);
    const strain = 1e-6;
    const linear = (eye.youngModulus_MPa * eye.thickness_um * strain) / (1 - 0.5);
    expect(unitLineTension_mN_per_mm(1 + strain, eye) / linear).toBeCloseTo(1, 4);
  });

  it('stored by age is what the fit to the published enlargement gives', () => {
    for (const stiffnessPreset of PRESETS) {
      for (const age of FITTED_AGES_years) {
        const eye = eyeAt(age, { stiffnessPreset, dyed: false });
        const fitted = fitBaseTension_mN_per_mm(age, eye);
        expect(Math.abs(eye.baseTension_mN_per_mm / fitted - 1), `${stiffnessPreset} at ${age}`).toBeLessThan(1e-5);
      }
    }
  });

  it('makes openings enlarge within 0.04 of the published course between the fitted ages', () => {
    for (const age of [1 / 3, 1, 3, 5, 8, 10, 30, 50, 70, 90]) {
      const eye = eyeAt(age, plain);
      const wanted = publishedEnlargement(age);
      const got = openingEnlargement(eye, 4.5 / wanted, eye.baseTension_mN_per_mm);
      expect(Math.abs(got - wanted), `at ${age}: ${got} for ${wanted}`).toBeLessThan(0.04);
    }
  });
});
