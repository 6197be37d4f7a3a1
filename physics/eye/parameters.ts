/** Shape of what the model holds about an eye. The age function itself lives in age.ts. */
export type ParameterTag = 'measured' | 'derived' | 'assumed';

export interface EyeParameter {
  readonly key: string;
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  readonly tag: ParameterTag;
  /** Published or assumed range at this age. */
  readonly range: readonly [number, number];
  readonly source: string;
}
