import { describe, expect, it } from 'vitest';
import { eyeAt } from '../../physics/eye/age.ts';
import {
  holeStretchAtRimStretch,
  hoopStress,
  lineDiameterFor_mm,
  marchFromHole,
  openingEnlargement,
  radialStress,
  referenceRadius_mm,
  rimAnchorRadius_mm,
} from '../../physics/eye/radial.ts';
import { stretchAtTension } from '../../physics/eye/tension.ts';

const neoHookean = { shearModulus: 1, stiffening: 0 };
const plain = { stiffnessPreset: 'uniaxial', dyed: false } as const;

describe('the radial answer for a hole in a membrane', () => {
  it.each([
    [1.1, 1.3359],
    [1.2, 1.6582],
    [1.5, 2.5002],
  ])('neo-Hookean annulus of four hole radii, rim stretch %d: hole stretch %d', (rim, hole) => {
    expect(holeStretchAtRimStretch(neoHookean, rim, 4)).toBeCloseTo(hole, 4);
  });

  it.each([
    [1.1, 1.4037],
    [1.2, 1.7845],
    [1.5, 2.7074],
    [2, 3.8847],
  ])('neo-Hookean infinite sheet, far stretch %d: hole stretch %d', (far, hole) => {
    expect(holeStretchAtRimStretch(neoHookean, far, 1000)).toBeCloseTo(hole, 4);
  });

  it('leaves no radial stress at the margin and twice the far hoop stress at small strain', () => {
    const hole = holeStretchAtRimStretch(neoHookean, 1 + 1e-5, 1000);
    const margin = marchFromHole(neoHookean, hole, 1);
    const far = marchFromHole(neoHookean, hole, 1000);
    expect(radialStress(neoHookean, margin)).toBeCloseTo(0, 12);
    expect(hoopStress(neoHookean, margin) / radialStress(neoHookean, far)).toBeCloseTo(2, 3);
  });

  it('puts the rim at the lens radius when the uncut capsule carries its base tension', () => {
    const eye = eyeAt(0.5, plain);
    const uncut = stretchAtTension(eye.baseTension_mN_per_mm, eye);
    expect(referenceRadius_mm(eye) * uncut).toBeCloseTo(eye.lensDiameter_mm / 2, 12);
    const springs_mm = rimAnchorRadius_mm(eye, eye.baseTension_mN_per_mm) - eye.lensDiameter_mm / 2;
    expect(springs_mm * eye.zonuleStiffness_mN_per_mm2).toBeCloseTo(eye.baseTension_mN_per_mm, 12);
  });

  it('agrees at small strain with the closed form of a hole in a disc on rim springs', () => {
    // stiff capsule, small tension: Lame with a spring rim, displacement from the tense sheet
    const disc = {
      thickness_um: 10,
      youngModulus_MPa: 4.5,
      stiffening: 0,
      lensDiameter_mm: 10,
      baseTension_mN_per_mm: 1e-3,
      zonuleStiffness_mN_per_mm2: 3,
    };
    const [S, nu, a, b, k, N0] = [45, 0.5, 2.5, 5, 3, 1e-3];
    const s = (k * b * (1 - nu * nu)) / S;
    // released tractions at the hole: u = c1 r + c2 / r with zero net radial tension at a
    const q = (a * a * (1 - nu - s)) / (b * b * (1 + nu + s));
    const c2 = (N0 * a * a * (1 - nu * nu)) / (S * (1 - nu - (1 + nu) * q));
    const c1 = (c2 * q) / (a * a);
    const expected = c1 + c2 / (a * a);
    const got = openingEnlargement(disc, 2 * a, N0) - 1;
    expect(got / expected).toBeCloseTo(1, 3);
  });

  it('finds the line whose opening has the wanted diameter', () => {
    const eye = eyeAt(2, plain);
    const line = lineDiameterFor_mm(eye, 4.5, eye.baseTension_mN_per_mm);
    expect(line * openingEnlargement(eye, line, eye.baseTension_mN_per_mm)).toBeCloseTo(4.5, 9);
    expect(line).toBeLessThan(4);
  });

  it('opens further under more tension', () => {
    const eye = eyeAt(0.5, plain);
    expect(openingEnlargement(eye, 3.5, 1.5)).toBeGreaterThan(openingEnlargement(eye, 3.5, 1));
  });

  it('refuses a line outside the capsule', () => {
    const eye = eyeAt(0.5, plain);
    expect(() => openingEnlargement(eye, 9, 1)).toThrow(RangeError);
  });
});
