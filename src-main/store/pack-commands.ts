import { deflateSync, inflateSync } from 'node:zlib';
import type { HandCommand } from '../../physics/index.ts';
import { MOST_COMMANDS } from '../ipc/attempt-schema.ts';
import { ByteReader, ByteWriter } from './bytes.ts';

/**
 * Commands as bytes and back, to the bit. By columns, because a hand moves little from step to step. A column of numbers
 * is written as whole numbers of its unit in the last decimal place when every value is exactly that (the page rounds
 * its commands so), else as the 64-bit floats themselves. Instruments and incisions are runs. All of it is deflated.
 *
 *   bytes   = deflate(version, count, column x 4, runs of instruments, runs of incisions)
 *   column  = decimals, differences of the whole numbers, places of negative zeros   | RAW, count x 8 bytes
 */
const VERSION = 1;
const RAW = 255;
const DECIMALS = [0, 3, 4, 6] as const;
const INSTRUMENTS = ['forceps', 'needle', 'cannula'] as const;
const COLUMNS = ['x_mm', 'y_mm', 'lift_mm', 'jaws'] as const;
/** Whole numbers stay well inside what a double holds exactly. */
const LARGEST_WHOLE = 2 ** 45;
/** Largest unpacked size: raw columns and a run per step. */
const LARGEST_BYTES = MOST_COMMANDS * 48 + 64;

/** What does not unpack: damaged or made up. */
export class Unpackable extends Error {}

const isNegativeZero = (value: number): boolean => Object.is(value, -0);

/** The whole numbers that give every value back exactly, null when there are none at this number of decimals. */
function wholeNumbers(values: Float64Array, decimals: number): Float64Array | null {
  const scale = 10 ** decimals;
  const whole = new Float64Array(values.length);
  for (let k = 0; k < values.length; k++) {
    const number = Math.round(values[k] * scale);
    if (!(Math.abs(number) < LARGEST_WHOLE) || number / scale !== values[k]) return null;
    whole[k] = number;
  }
  return whole;
}

function writeColumn(writer: ByteWriter, values: Float64Array): void {
  for (const decimals of DECIMALS) {
    const whole = wholeNumbers(values, decimals);
    if (whole === null) continue;
    writer.byte(decimals);
    let before = 0;
    for (const number of whole) {
      writer.signed(number - before);
      before = number;
    }
    const zeros = Array.from(values.keys()).filter((k) => isNegativeZero(values[k]));
    writer.unsigned(zeros.length);
    for (const k of zeros) writer.unsigned(k);
    return;
  }
  writer.byte(RAW);
  for (const value of values) writer.float64(value);
}

function readColumn(reader: ByteReader, count: number): Float64Array {
  const values = new Float64Array(count);
  const decimals = reader.byte();
  if (decimals === RAW) {
    for (let k = 0; k < count; k++) values[k] = reader.float64();
    return values;
  }
  if (!(DECIMALS as readonly number[]).includes(decimals)) throw new Unpackable(`decimals ${decimals}`);
  const scale = 10 ** decimals;
  let whole = 0;
  for (let k = 0; k < count; k++) {
    whole += reader.signed();
    values[k] = whole / scale;
  }
  for (let left = reader.unsigned(); left > 0; left--) {
    const k = reader.unsigned();
    if (k >= count || values[k] !== 0) throw new Unpackable('a negative zero where there is none');
    values[k] = -0;
  }
  return values;
}

function writeRuns(writer: ByteWriter, values: readonly number[]): void {
  for (let from = 0; from < values.length; ) {
    let to = from + 1;
    while (to < values.length && values[to] === values[from]) to++;
    writer.unsigned(values[from]);
    writer.unsigned(to - from);
    from = to;
  }
}

function readRuns(reader: ByteReader, count: number, most: number): Uint8Array {
  const values = new Uint8Array(count);
  for (let from = 0; from < count; ) {
    const value = reader.unsigned();
    const length = reader.unsigned();
    if (value > most || length < 1 || from + length > count) throw new Unpackable('a run that does not fit');
    values.fill(value, from, from + length);
    from += length;
  }
  return values;
}

/** @param commands at most 200,000, every number finite */
export function packCommands(commands: readonly HandCommand[]): Uint8Array {
  const writer = new ByteWriter();
  writer.byte(VERSION);
  writer.unsigned(commands.length);
  for (const column of COLUMNS) {
    writeColumn(
      writer,
      Float64Array.from(commands, (command) => command[column]),
    );
  }
  writeRuns(
    writer,
    commands.map(({ instrument }) => INSTRUMENTS.indexOf(instrument)),
  );
  writeRuns(
    writer,
    commands.map(({ incision }) => incision),
  );
  return deflateSync(writer.bytes());
}

/** Throws `Unpackable` for bytes that no commands were packed into: wrong, cut short, too many, or numbers out of range. */
export function unpackCommands(packed: Uint8Array): HandCommand[] {
  let bytes: Uint8Array;
  try {
    bytes = inflateSync(packed, { maxOutputLength: LARGEST_BYTES });
  } catch {
    throw new Unpackable('not deflated, or too long');
  }
  const reader = new ByteReader(bytes, () => new Unpackable('cut short'));
  if (reader.byte() !== VERSION) throw new Unpackable('another version');
  const count = reader.unsigned();
  if (count > MOST_COMMANDS) throw new Unpackable(`${count} commands`);
  const [x, y, lift, jaws] = COLUMNS.map(() => readColumn(reader, count));
  const instruments = readRuns(reader, count, INSTRUMENTS.length - 1);
  const incisions = readRuns(reader, count, 15);
  if (!reader.atEnd) throw new Unpackable('more than there should be');
  const commands: HandCommand[] = new Array(count);
  for (let k = 0; k < count; k++) {
    const finite = Number.isFinite(x[k]) && Number.isFinite(y[k]) && Number.isFinite(lift[k]);
    if (!finite || !(jaws[k] >= 0 && jaws[k] <= 1)) {
      throw new Unpackable(`a number out of range at step ${k}`);
    }
    commands[k] = {
      x_mm: x[k],
      y_mm: y[k],
      lift_mm: lift[k],
      jaws: jaws[k],
      instrument: INSTRUMENTS[instruments[k]],
      incision: incisions[k],
    };
  }
  return commands;
}
