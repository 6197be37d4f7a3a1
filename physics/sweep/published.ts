/** Published points that a chart shows beside the computed ones. Angles of a source that does not define its angle are only a trend. */
export interface PublishedPoint {
  readonly age_years: readonly [number, number];
  readonly value: number;
  /** Half width of what was reported (standard deviation), null when none was. */
  readonly spread: number | null;
  readonly unit: string;
  readonly source: string;
}

export const PUBLISHED_ENLARGEMENT: readonly PublishedPoint[] = [
  ...[0.5, 2, 4, 6, 8].map(
    (age): PublishedPoint => ({
      age_years: [age, age],
      value: 1.27 - 0.014 * age,
      spread: null,
      unit: '1',
      source: 'line of 13 eyes, 4 months to 8 years, 1.27 - 0.014 age (preprint 202502.1108)',
    }),
  ),
  {
    age_years: [2, 6],
    value: 1.211,
    spread: 0.039,
    unit: '1',
    source: '28 eyes (BMC Ophthalmol 2021, 10.1186/s12886-021-02184-y)',
  },
  {
    age_years: [40, 80],
    value: 1.058,
    spread: 0.055,
    unit: '1',
    source: '47 adult eyes, +0.33 of 5.67 mm (Tan and Yuan 2025)',
  },
];

export const PUBLISHED_PULL_ANGLE: readonly PublishedPoint[] = [
  {
    age_years: [10, 10],
    value: 85,
    spread: null,
    unit: 'deg',
    source: 'post-mortem eyes, the angle is not defined there (Rajabi 2009)',
  },
  {
    age_years: [50, 75],
    value: 10,
    spread: null,
    unit: 'deg',
    source: 'post-mortem eyes above 50 years, the angle is not defined there (Rajabi 2009)',
  },
];
