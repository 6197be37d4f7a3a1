/** An instance of the compiled kernel on memory of its own, and how things are laid out in it. */
import { KERNEL_BYTES } from './kernel-bytes.ts';

/** As much of the platform's WebAssembly as is used; browsers and Node have it, and a page's rules may forbid it. */
interface Platform {
  readonly Memory: new (size: { readonly initial: number }) => Memory;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

export interface Memory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}

const PAGE = 65_536;
/** Below this the compiled module may keep what it likes. */
export const BASE = 1_024;

/** Compiled when it is first needed, for the engine and the evaluator alike. */
let compiled: object | null = null;

function compiledOn(platform: Platform): object {
  compiled ??= new platform.Module(
    Uint8Array.from({ length: KERNEL_BYTES.length / 2 }, (_, k) =>
      Number.parseInt(KERNEL_BYTES.slice(2 * k, 2 * k + 2), 16),
    ),
  );
  return compiled;
}

/** What the sources export goes by `Exports`. Null where the platform has no WebAssembly or does not let it be made. */
export function kernelInstance<Exports>(): { readonly memory: Memory; readonly run: Exports } | null {
  const platform = (globalThis as { readonly WebAssembly?: Platform }).WebAssembly;
  if (!platform) return null;
  try {
    const memory = new platform.Memory({ initial: 1 });
    const instance = new platform.Instance(compiledOn(platform), { env: { memory } });
    return { memory, run: instance.exports as Exports };
  } catch {
    return null;
  }
}

/** Gives out places from `from` on, in bytes, 16 apart at least. */
export function createRoom(from: number) {
  let top = from;
  const room = (bytes: number): number => {
    const at = top;
    top = (top + bytes + 15) & ~15;
    return at;
  };
  room.end = () => top;
  return room;
}

export function growTo(memory: Memory, end: number): void {
  const missing = end - memory.buffer.byteLength;
  if (missing > 0) memory.grow(Math.ceil(missing / PAGE));
}

export const doubles = (memory: Memory, at: number, length: number) => new Float64Array(memory.buffer, at, length);
export const floats = (memory: Memory, at: number, length: number) => new Float32Array(memory.buffer, at, length);
export const integers = (memory: Memory, at: number, length: number) => new Int32Array(memory.buffer, at, length);
