import type { Knot } from './monotone.ts';
import type { ParameterTag } from './parameters.ts';

/**
 * What the model holds about an eye at the ages where something is known or had to be assumed. Between rows a
 * monotone curve in age is used; before the first and after the last row the value is held.
 * Reading of the tags: measured = the value itself was published; derived = arithmetic from published values;
 * assumed = chosen, with a range. "From memory" marks a publication that was recalled and not read again.
 */
export interface AgeColumn {
  readonly label: string;
  readonly unit: string;
  readonly source: string;
  /** Tag of the age span that ends at `toAge_years`. */
  readonly tags: readonly { readonly toAge_years: number; readonly tag: ParameterTag }[];
  readonly value: readonly Knot[];
  readonly low: readonly Knot[];
  readonly high: readonly Knot[];
}

const ALL_AGES = Number.POSITIVE_INFINITY;
const tagged = (tag: ParameterTag) => [{ toAge_years: ALL_AGES, tag }];
/** A column's range as one offset below and above its value. */
const offset = (knots: readonly Knot[], by: number): readonly Knot[] => knots.map(([x, y]) => [x, y + by]);

const LENS_DIAMETER_mm: readonly Knot[] = [
  [0, 6.0],
  [2 / 12, 6.8],
  [3 / 12, 7.1],
  [0.5, 7.66],
  [2, 8.45],
  [6, 8.7],
  [20, 9.2],
  [40, 9.3],
  [60, 9.6],
  [75, 9.7],
];

const LIMBUS_DIAMETER_mm: readonly Knot[] = [
  [0, 10.26],
  [0.75, 11.25],
  [20, 11.71],
];

/** Pole and mid-periphery in one: the membrane of the model has one thickness. */
export const THICKNESS_um: AgeColumn = {
  label: 'Thickness of the anterior capsule',
  unit: 'um',
  source:
    'Barraquer 2006 (histology, 12-103 y) from 20 years; younger than 12 no measurement is known and the value is an ' +
    'extrapolation; upper end of the range Krag 1997 (from memory)',
  tags: [
    { toAge_years: 12, tag: 'assumed' },
    { toAge_years: ALL_AGES, tag: 'measured' },
  ],
  value: [
    [0.5, 6.5],
    [2, 8],
    [6, 10],
    [20, 12.5],
    [40, 14],
    [60, 15.5],
    [75, 16],
  ],
  low: [
    [0.5, 4],
    [2, 5],
    [6, 7],
    [20, 11],
    [40, 12],
    [60, 13],
  ],
  high: [
    [0.5, 11],
    [2, 12],
    [6, 13],
    [20, 15],
    [40, 22],
    [60, 30],
    [75, 33],
  ],
};

export const YOUNG_MODULUS_UNIAXIAL_MPa: AgeColumn = {
  label: "Young's modulus at small stretch",
  unit: 'MPa',
  source:
    'Krag 1997 as fitted by Burd 2002, about 0.31 + 0.03 age up to 1.46 MPa (both from memory); upper end of the ' +
    'range Fisher 1969, whose inflation test says the opposite trend',
  tags: tagged('derived'),
  value: [
    [0.5, 0.33],
    [2, 0.37],
    [6, 0.49],
    [20, 0.9],
    [40, 1.46],
    [75, 1.46],
  ],
  low: [
    [2, 0.2],
    [6, 0.3],
    [20, 0.5],
    [40, 0.8],
  ],
  high: [
    [6, 6],
    [20, 5],
    [40, 4],
    [60, 3],
  ],
};

export const YOUNG_MODULUS_INFLATION_MPa: AgeColumn = {
  label: "Young's modulus at small stretch",
  unit: 'MPa',
  source:
    'Fisher 1969 (inflation): about 6 MPa in the child, 3 at 60 years, 1.5 at extreme age, here 95 years; ' +
    'lower end of the range Krag 1997 as fitted by Burd 2002 (from memory)',
  tags: tagged('derived'),
  value: [
    [0, 6],
    [60, 3],
    [95, 1.5],
  ],
  low: [
    [2, 0.3],
    [6, 0.4],
    [20, 0.9],
    [40, 1.4],
  ],
  high: [
    [0, 7],
    [60, 4],
    [95, 2.5],
  ],
};

export const TEAR_RESISTANCE_mN: AgeColumn = {
  label: 'Tear resistance (tearing energy times thickness)',
  unit: 'mN',
  source:
    'no measurement of a lens capsule is known; order of magnitude from about 9 mN RMS forceps force (force-sensing ' +
    'forceps, animal and human lens); rise toward youth in the direction of Rajabi 2009, its size assumed; a flat ' +
    'course is as defensible',
  tags: tagged('assumed'),
  value: [
    [0.5, 14],
    [2, 15],
    [6, 15],
    [20, 14],
    [40, 12],
    [60, 10],
    [75, 9],
  ],
  low: [
    [6, 6],
    [20, 6],
    [40, 5],
    [60, 5],
    [75, 4],
  ],
  high: [
    [6, 30],
    [20, 25],
    [40, 20],
    [60, 18],
  ],
};

export const LENS_DIAMETER: AgeColumn = {
  label: 'Lens diameter',
  unit: 'mm',
  source:
    'Bluestein 1996 (50 child eyes) to 2 years, interpolated at 6; from 20 years Rosen 2006 (from memory), raised to join',
  tags: [
    { toAge_years: 2, tag: 'measured' },
    { toAge_years: ALL_AGES, tag: 'derived' },
  ],
  value: LENS_DIAMETER_mm,
  low: offset(LENS_DIAMETER_mm, -0.6),
  high: offset(LENS_DIAMETER_mm, 0.6),
};

const ANTERIOR_RADIUS_mm: readonly Knot[] = [
  [0.25, 7.26],
  [0.5, 8.4],
  [1, 9.6],
  [2, 10.6],
  [4, 11.4],
  [6, 12.2],
  [20, 11.8],
  [40, 10.6],
  [60, 9.5],
  [75, 8.6],
];

export const ANTERIOR_RADIUS: AgeColumn = {
  label: 'Radius of curvature of the anterior lens surface',
  unit: 'mm',
  source:
    'Mutti 2018 growth curve (boys; girls 0.29 mm less) to 6 years, from 3 months; Dubbelman 2001 (from memory) for ' +
    'adults; 6 to 20 years joins two data sets',
  tags: tagged('derived'),
  value: ANTERIOR_RADIUS_mm,
  low: offset(ANTERIOR_RADIUS_mm, -1.2),
  high: offset(ANTERIOR_RADIUS_mm, 1.2),
};

/** Lens diameter less 1.86 mm in the first half year, as at six months, so that the zone stays inside the small lens. */
const ZONULE_FREE_mm: readonly Knot[] = [
  [0, 4.14],
  [2 / 12, 4.94],
  [3 / 12, 5.24],
  [0.5, 5.8],
  [2, 6.3],
  [6, 6.6],
  [20, 7.0],
  [40, 7.0],
  [60, 6.8],
  [75, 6.5],
];

export const ZONULE_FREE_DIAMETER: AgeColumn = {
  label: 'Diameter free of zonule insertions',
  unit: 'mm',
  source:
    'assumed: lens diameter less 1.9 to 3.2 mm; trend after Sakabe 1998 and Farnsworth and Shyne 1979 (from memory)',
  tags: tagged('assumed'),
  value: ZONULE_FREE_mm,
  low: offset(ZONULE_FREE_mm, -0.8),
  high: offset(ZONULE_FREE_mm, 0.8),
};

export const LIMBUS_DIAMETER: AgeColumn = {
  label: 'Corneal (limbus) diameter',
  unit: 'mm',
  source:
    'newborn 10.26 +- 0.59 (64 term newborns); 11.0-11.5 at 6-12 months (from memory); adult 11.71 +- 0.42 ' +
    '(Ruefer 2005, 390 subjects)',
  tags: tagged('derived'),
  value: LIMBUS_DIAMETER_mm,
  low: offset(LIMBUS_DIAMETER_mm, -0.6),
  high: offset(LIMBUS_DIAMETER_mm, 0.6),
};

/**
 * Radial stiffness of the rim per mm of arc. Published totals over the ring: 22 mN/mm at first stretch of the zonules
 * (4.4 mN at 0.2 mm, 60 y), 67 mN/mm for a whole bag pulled to rupture (0.39 N at 5.85 mm), 25 to 343 mN/mm for an
 * emptied bag (Ziebarth 2008, no trend with age); over about 30 mm of arc that is 0.7 to 11 mN/mm^2. The value
 * is near the geometric middle of that span.
 */
export const ZONULE_STIFFNESS_mN_per_mm2 = 3;
export const ZONULE_STIFFNESS_RANGE_mN_per_mm2: readonly [number, number] = [0.7, 11];
export const ZONULE_STIFFNESS_SOURCE =
  'assumed: geometric middle of 0.7-11 mN/mm^2 derived from whole-ring stretch tests (Ziebarth 2008 and others) over ' +
  '30 mm of arc; no trend with age found there';

/** End points of Krag 1997 (from memory): elongation and stress at rupture at 7 months and 98 years. */
export const RUPTURE_UNIAXIAL = {
  youngAge_years: 7 / 12,
  oldAge_years: 98,
  youngStrain: 1.08,
  oldStrain: 0.4,
  youngStress_MPa: 17.5,
  oldStress_MPa: 1.5,
  source:
    'Krag 1997 (uniaxial ring, 67 samples; from memory): straight line in strain, exponential in stress between its ends',
} as const;

/** Fisher 1969: elongation 29 % at every age, stress falling with age; the old end is placed at 95 years here. */
export const RUPTURE_INFLATION = {
  strain: 0.29,
  youngAge_years: 0,
  oldAge_years: 95,
  youngStress_MPa: 2.3,
  oldStress_MPa: 0.7,
  source: 'Fisher 1969 (inflation): elongation 29 % at every age; 2.3 MPa young, 0.7 MPa old, straight line between',
} as const;

/**
 * Dye. One paired test (Dick 2008, 13 pairs) found the rupture stress of dyed capsules at 0.67 of undyed ones; at an
 * unchanged elongation the rupture energy falls in the same proportion. With the square of the stress it would be 0.45.
 * Later indentation tests contradict each other (Simsek 2017: no effect; Simsek 2020: stiffer), hence the range up to 1.
 */
export const DYE_FACTOR = 0.67;
export const DYE_FACTOR_RANGE: readonly [number, number] = [0.45, 1];
