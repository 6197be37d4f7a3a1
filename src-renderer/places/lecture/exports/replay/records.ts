/**
 * Moments as rows of whole numbers, for packing: places in micrometres, forces in hundredths of a millinewton, ratios in
 * thousandths. Along an outline each point is kept as its way from the one before.
 */
import type { ReplayMoment, ReplayTip } from './contract.ts';

const PER_mm = 1000;
const PER_mN = 100;
const PER_ONE = 1000;
const PER_mmHg = 100;
const MOST = 32_767;

/** The nearest that 16 bits can hold; not finite counts as 0. */
const whole = (value: number): number =>
  Number.isFinite(value) ? Math.max(-MOST, Math.min(MOST, Math.round(value))) : 0;

export function recordOf({ margins, tearLines, tips, instrument, ...rest }: ReplayMoment): number[] {
  const record: number[] = [];
  for (const runs of [margins, tearLines]) {
    record.push(runs.length);
    for (const run of runs) writeRun(record, run);
  }
  record.push(tips.length);
  for (const tip of tips) writeTip(record, tip);
  record.push(whole(PER_mm * instrument.x_mm), whole(PER_mm * instrument.y_mm), instrument.gripping ? 1 : 0);
  record.push(whole(PER_mN * rest.gripForce_mN), whole(PER_mmHg * rest.netPressure_mmHg));
  return record;
}

function writeRun(record: number[], run: readonly number[]): void {
  record.push(run.length);
  const before = [0, 0];
  for (const [at, value] of run.entries()) {
    const now = whole(PER_mm * value);
    // each step is well below what 16 bits hold: an eye is 12 mm wide
    record.push(now - before[at % 2]!);
    before[at % 2] = now;
  }
}

function writeTip(record: number[], tip: ReplayTip): void {
  record.push(whole(PER_mm * tip.x_mm), whole(PER_mm * tip.y_mm));
  for (const force of [tip.sheet_mN, tip.pull_mN, tip.resultant_mN])
    record.push(force === null ? 0 : 1, ...(force ?? [0, 0]).map((part) => whole(PER_mN * part)));
  record.push(whole(PER_ONE * tip.ratio), whole(PER_mN * tip.resistance_mN));
}

/** @throws Error when the numbers do not make a moment */
export function momentFrom(record: Int16Array, sheet: Uint8Array): ReplayMoment {
  const reader = new Reader(record);
  const margins = reader.runs();
  const tearLines = reader.runs();
  const tips = reader.list(() => readTip(reader));
  const instrument = { x_mm: reader.next() / PER_mm, y_mm: reader.next() / PER_mm, gripping: reader.next() === 1 };
  const gripForce_mN = reader.next() / PER_mN;
  const netPressure_mmHg = reader.next() / PER_mmHg;
  reader.end();
  return { margins, tearLines, tips, instrument, gripForce_mN, netPressure_mmHg, sheet };
}

function readTip(reader: Reader): ReplayTip {
  const [x_mm, y_mm] = [reader.next() / PER_mm, reader.next() / PER_mm];
  const [sheet_mN, pull_mN, resultant_mN] = [reader.force(), reader.force(), reader.force()];
  const [ratio, resistance_mN] = [reader.next() / PER_ONE, reader.next() / PER_mN];
  return { x_mm, y_mm, sheet_mN, pull_mN, resultant_mN: resultant_mN ?? [0, 0], ratio, resistance_mN };
}

class Reader {
  readonly #record: Int16Array;
  #at = 0;

  constructor(record: Int16Array) {
    this.#record = record;
  }

  next(): number {
    const value = this.#record[this.#at];
    if (value === undefined) throw new Error('the replay ends inside a moment');
    this.#at += 1;
    return value;
  }

  list<T>(read: () => T): T[] {
    const count = this.next();
    if (count < 0 || count > this.#record.length) throw new Error('the replay is damaged');
    return Array.from({ length: count }, read);
  }

  runs(): number[][] {
    return this.list(() => {
      const before = [0, 0];
      let at = 0;
      return this.list(() => {
        const value = before[at % 2]! + this.next();
        before[at % 2] = value;
        at += 1;
        return value / PER_mm;
      });
    });
  }

  force(): [number, number] | null {
    const known = this.next() === 1;
    const [x, y] = [this.next() / PER_mN, this.next() / PER_mN];
    return known ? [x, y] : null;
  }

  end(): void {
    if (this.#at !== this.#record.length) throw new Error('the replay is damaged');
  }
}
