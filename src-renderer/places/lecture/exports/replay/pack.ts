/** A replay as text for a file: differences from moment to moment, compressed. */
import type { Replay, ReplayEye } from './contract.ts';
import { GRID_SIDE } from './contract.ts';
import { momentFrom, recordOf } from './records.ts';

const CELLS = GRID_SIDE * GRID_SIDE;

interface PackedEye extends Omit<ReplayEye, 'moments'> {
  /** Numbers in the record of each moment. */
  readonly lengths: readonly number[];
}

interface Head {
  readonly times_s: readonly number[];
  readonly eyes: readonly PackedEye[];
}

/** Each number less the one at its place before, where both rows are as long; both bytes apart, since the high one is mostly 0. */
function differences(records: readonly (readonly number[])[]): Uint8Array {
  const count = records.reduce((sum, { length }) => sum + length, 0);
  const bytes = new Uint8Array(2 * count);
  let at = 0;
  for (const [k, record] of records.entries()) {
    const before = records[k - 1];
    const same = before !== undefined && before.length === record.length;
    for (const [i, value] of record.entries()) {
      const change = (same ? value - before[i]! : value) & 0xffff;
      bytes[at] = change & 0xff;
      bytes[count + at] = change >> 8;
      at += 1;
    }
  }
  return bytes;
}

function undifferenced(bytes: Uint8Array, lengths: readonly number[]): Int16Array[] {
  const count = bytes.length / 2;
  let at = 0;
  const records: Int16Array[] = [];
  for (const [k, length] of lengths.entries()) {
    const record = new Int16Array(length);
    const before = records[k - 1];
    const same = before !== undefined && before.length === length;
    for (let i = 0; i < length; i++) {
      record[i] = (bytes[at]! | (bytes[count + at]! << 8)) + (same ? before[i]! : 0);
      at += 1;
    }
    records.push(record);
  }
  return records;
}

function gridDifferences({ moments }: ReplayEye): Uint8Array {
  const bytes = new Uint8Array(CELLS * moments.length);
  for (const [k, { sheet }] of moments.entries())
    for (let i = 0; i < CELLS; i++) bytes[k * CELLS + i] = sheet[i]! - (moments[k - 1]?.sheet[i] ?? 0);
  return bytes;
}

function gridsFrom(bytes: Uint8Array, count: number): Uint8Array[] {
  const grids: Uint8Array[] = [];
  for (let k = 0; k < count; k++) {
    const grid = new Uint8Array(CELLS);
    for (let i = 0; i < CELLS; i++) grid[i] = bytes[k * CELLS + i]! + (grids[k - 1]?.[i] ?? 0);
    grids.push(grid);
  }
  return grids;
}

async function throughStream(bytes: Uint8Array, stream: GenericTransformStream): Promise<Uint8Array> {
  const pipe = new Blob([bytes as BlobPart])
    .stream()
    .pipeThrough(stream as ReadableWritablePair<Uint8Array, Uint8Array>);
  return new Uint8Array(await new Response(pipe).arrayBuffer());
}

/** Bytes as base64, in pieces that a call can take. */
function base64Of(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x6000)
    text += btoa(String.fromCharCode(...bytes.subarray(at, at + 0x6000)));
  return text;
}

/** @returns base64, about a tenth of what the moments take in memory */
export async function packReplay({ times_s, eyes }: Replay): Promise<string> {
  const records = eyes.map(({ moments }) => moments.map(recordOf));
  const head: Head = {
    times_s,
    eyes: eyes.map(({ moments: _, ...eye }, at) => ({ ...eye, lengths: records[at]!.map(({ length }) => length) })),
  };
  const text = new TextEncoder().encode(JSON.stringify(head));
  const length = new Uint8Array(new Uint32Array([text.length]).buffer);
  const parts = [length, text, ...eyes.flatMap((eye, at) => [differences(records[at]!), gridDifferences(eye)])];
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return base64Of(await throughStream(whole, new CompressionStream('gzip')));
}

/** The replay that `packReplay` packed, to the precision of its records. @throws Error when the text is no whole replay */
export async function unpackReplay(base64: string): Promise<Replay> {
  const packed = Uint8Array.from(atob(base64.trim()), (letter) => letter.charCodeAt(0));
  const bytes = await throughStream(packed, new DecompressionStream('gzip'));
  const length = new DataView(bytes.buffer).getUint32(0, true);
  const head = JSON.parse(new TextDecoder().decode(bytes.subarray(4, 4 + length))) as Head;
  let at = 4 + length;
  const take = (count: number): Uint8Array => {
    at += count;
    if (at > bytes.length) throw new Error('the replay is cut short');
    return bytes.subarray(at - count, at);
  };
  const eyes = head.eyes.map(({ lengths, ...eye }): ReplayEye => {
    const records = undifferenced(take(2 * lengths.reduce((sum, one) => sum + one, 0)), lengths);
    const grids = gridsFrom(take(CELLS * lengths.length), lengths.length);
    return { ...eye, moments: records.map((record, k) => momentFrom(record, grids[k]!)) };
  });
  return { times_s: head.times_s, eyes };
}
