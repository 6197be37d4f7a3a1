import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createGunzip } from 'node:zlib';
import type { BundleLimits } from './bundle-format.ts';
import { BadFile } from './jobs.ts';

const megabytes = (bytes: number): string => `${Math.round(bytes / 1e5) / 10} MB`;

/** Counts what comes out of the decompression and stops it at the limits, whatever the file promises. */
class Meter {
  #text_bytes = 0;
  readonly #limits: BundleLimits;
  constructor(limits: BundleLimits) {
    this.#limits = limits;
  }

  count(bytes: number, read_bytes: number): void {
    const { text_bytes, ratio, ratioFrom_bytes } = this.#limits;
    this.#text_bytes += bytes;
    if (this.#text_bytes > text_bytes) throw new BadFile([`Found more than ${megabytes(text_bytes)} of text in it.`]);
    if (this.#text_bytes > ratioFrom_bytes && this.#text_bytes > ratio * read_bytes) {
      throw new BadFile([`Found text packed more than ${ratio} to 1, which no bundle of ours is.`]);
    }
  }
}

const GZIP_FAULTS = new Set(['Z_DATA_ERROR', 'Z_BUF_ERROR', 'Z_STREAM_ERROR', 'Z_NEED_DICT', 'Z_MEM_ERROR']);

/** What the decompression complains of, as a line for the person. */
function asBadFile(fault: unknown): unknown {
  const { code } = fault as NodeJS.ErrnoException;
  if (typeof code !== 'string') return fault;
  if (code === 'Z_BUF_ERROR') return new BadFile(['The file is cut short.']);
  return GZIP_FAULTS.has(code) ? new BadFile(['The file is no bundle: it is not gzip, or is damaged.']) : fault;
}

/**
 * The lines of a bundle, as text without their ends, read piece by piece: never more than a line and a piece is held.
 * Throws `BadFile` for what is too large, no gzip, cut short or no UTF-8.
 */
export async function* bundleLines(path: string, limits: BundleLimits): AsyncGenerator<string> {
  const { size } = await stat(path);
  if (size > limits.file_bytes) {
    throw new BadFile([`The file has ${megabytes(size)}; at most ${megabytes(limits.file_bytes)} are read.`]);
  }
  const file = createReadStream(path);
  const text = createGunzip();
  file.on('error', (fault) => text.destroy(fault));
  const meter = new Meter(limits);
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const decode = (parts: readonly Uint8Array[]): string => {
    try {
      return decoder.decode(Buffer.concat(parts));
    } catch {
      throw new BadFile(['Found bytes in it that are no text.']);
    }
  };
  let parts: Buffer[] = [];
  let length = 0;
  try {
    for await (const chunk of file.pipe(text) as AsyncIterable<Buffer>) {
      meter.count(chunk.length, file.bytesRead);
      let from = 0;
      for (let at = chunk.indexOf(10); at >= 0; at = chunk.indexOf(10, from)) {
        parts.push(chunk.subarray(from, at));
        const line = decode(parts);
        parts = [];
        length = 0;
        from = at + 1;
        yield line;
      }
      parts.push(chunk.subarray(from));
      length += chunk.length - from;
      if (length > limits.line_bytes) throw new BadFile([`Found a line longer than ${megabytes(limits.line_bytes)}.`]);
    }
    if (length > 0) yield decode(parts);
  } catch (fault) {
    throw asBadFile(fault);
  } finally {
    text.destroy();
    file.destroy();
  }
}
