import { describe, expect, it } from 'vitest';
import { eyeAt } from '../../physics/eye/age.ts';
import {
  type Chamber,
  createChamber,
  LEAST_TENSION_SHARE,
  laplaceTension_mN_per_mm,
  netPressureAtTension_mmHg,
  stepChamber,
  uncutTension_mN_per_mm,
} from '../../physics/eye/chamber.ts';
import {
  closedLeakTime_s,
  dragPerArea_mN_s_per_mm3,
  FLUID_IDS,
  fluidById,
  leakTime_s,
} from '../../physics/eye/fluid.ts';

const infant = eyeAt(0.5, { stiffnessPreset: 'uniaxial', dyed: false });
const scenario = { fluid: 'ha-1.4', behindPressure_mmHg: 1, insidePressure_mmHg: 0, fillPressure_mmHg: 3 } as const;
const still = { instrumentIn: false, sideLoad_mN: 0, refilling: false, openAreaShare: 0 };
const DT_s = 1 / 60;

function after(seconds: number, chamber: Chamber, step: Parameters<typeof stepChamber>[1]): Chamber {
  let now = chamber;
  for (let i = 0; i < Math.round(seconds / DT_s); i += 1) now = stepChamber(now, step, DT_s);
  return now;
}

describe('tension from pressure', () => {
  it('is dp R/2 for a spherical cap', () => {
    expect(laplaceTension_mN_per_mm(0.4666, 8.4)).toBeCloseTo(1.95972, 10);
    // 466.6 Pa is 3.5 mmHg
    const rise = uncutTension_mN_per_mm(infant, 3.5) - infant.baseTension_mN_per_mm;
    expect(rise).toBeCloseTo(1.96, 2);
  });

  it('never falls below its floor under a chamber filled hard', () => {
    expect(uncutTension_mN_per_mm(infant, -40)).toBe(LEAST_TENSION_SHARE * infant.baseTension_mN_per_mm);
  });

  it('is undone by the pressure at that tension', () => {
    expect(netPressureAtTension_mmHg(infant, uncutTension_mN_per_mm(infant, 2.5))).toBeCloseTo(2.5, 12);
  });
});

describe('the fluids', () => {
  it('drag as viscosity over a millimetre: 1 Pa s over 1 mm is 1e-3 mN s/mm^3', () => {
    for (const id of FLUID_IDS) {
      expect(dragPerArea_mN_s_per_mm3(id)).toBeGreaterThan(0);
      if (id !== 'saline') expect(dragPerArea_mN_s_per_mm3(id)).toBeCloseTo(1e-3 * fluidById(id).viscosity_Pa_s, 12);
    }
  });

  it('keep their values inside the recalled span', () => {
    for (const id of FLUID_IDS) {
      const { viscosity_Pa_s, viscosityRange_Pa_s, zeroShearViscosity_Pa_s } = fluidById(id);
      expect(viscosity_Pa_s).toBeGreaterThanOrEqual(viscosityRange_Pa_s[0]);
      expect(viscosity_Pa_s).toBeLessThanOrEqual(viscosityRange_Pa_s[1]);
      expect(zeroShearViscosity_Pa_s).toBeGreaterThanOrEqual(viscosity_Pa_s);
    }
  });

  it('hold for seconds when thin and for minutes when thick', () => {
    expect(leakTime_s('saline', true, 0)).toBeLessThan(5);
    expect(closedLeakTime_s('ha-2.3')).toBeGreaterThan(300);
    expect(leakTime_s('ha-2.3', true, 0)).toBeGreaterThan(120);
  });

  it('leak faster with a shaft in the wound, and faster still when it presses on the side', () => {
    expect(leakTime_s('hpmc-2', true, 0)).toBeLessThan(closedLeakTime_s('hpmc-2'));
    expect(leakTime_s('hpmc-2', true, 20)).toBeCloseTo(leakTime_s('hpmc-2', true, 0) / 2, 10);
    expect(leakTime_s('hpmc-2', false, 20)).toBe(closedLeakTime_s('hpmc-2'));
  });
});

describe('the chamber', () => {
  it('starts full, with the net pressure of behind and inside less the chamber', () => {
    const chamber = createChamber({ ...scenario, insidePressure_mmHg: 5 }, infant);
    expect(chamber).toMatchObject({ fill_share: 1, chamberPressure_mmHg: 3, netPressure_mmHg: 3, fluidLost_share: 0 });
  });

  it('falls to 1/e in its leak time, whatever the step, and the capsule tightens', () => {
    const full = createChamber(scenario, infant);
    const leak_s = closedLeakTime_s('ha-1.4');
    const once = stepChamber(full, still, leak_s);
    expect(once.chamberPressure_mmHg).toBeCloseTo(3 / Math.E, 10);
    const halves = stepChamber(stepChamber(full, still, leak_s / 2), still, leak_s / 2);
    expect(halves.chamberPressure_mmHg).toBeCloseTo(once.chamberPressure_mmHg, 12);
    expect(once.tension_mN_per_mm).toBeGreaterThan(full.tension_mN_per_mm);
    expect(once.fluidLost_share).toBeCloseTo(1 - 1 / Math.E, 12);
  });

  it('is full again about a second into a refill and never above full', () => {
    const empty = after(60, createChamber({ ...scenario, fluid: 'saline' }, infant), { ...still, instrumentIn: true });
    expect(empty.chamberPressure_mmHg).toBeLessThan(1e-3);
    const refill = { ...still, instrumentIn: true, refilling: true };
    const thick = after(1.2, { ...empty, fluid: 'ha-2.3' }, refill);
    expect(thick.fill_share).toBe(1);
    // thin fluid runs out while it is put in: balance of 1 share a second against a leak of 1/2 a second
    const thin = after(20, empty, refill);
    expect(thin.fill_share).toBeGreaterThan(0.9);
    expect(thin.fill_share).toBeLessThanOrEqual(1);
  });

  it('lets the pressure inside the lens out as the capsule opens', () => {
    const swollen = createChamber({ ...scenario, insidePressure_mmHg: 10, fillPressure_mmHg: 0 }, infant);
    expect(swollen.netPressure_mmHg).toBe(11);
    expect(stepChamber(swollen, { ...still, openAreaShare: 0.02 }, DT_s).netPressure_mmHg).toBeCloseTo(
      1 + 10 / Math.E,
      8,
    );
    expect(stepChamber(swollen, { ...still, openAreaShare: 0.3 }, DT_s).netPressure_mmHg).toBeCloseTo(1, 4);
  });

  it('survives storing and does not change the state it was given', () => {
    const chamber = createChamber(scenario, infant);
    const copy = JSON.parse(JSON.stringify(chamber));
    const next = stepChamber(chamber, still, DT_s);
    expect(chamber).toEqual(copy);
    expect(stepChamber(copy, still, DT_s)).toEqual(next);
  });
});
