import type { IncomingMessage } from 'node:http';

/** Thrown for a request that asks too much or says nothing readable; `status` is the HTTP status to answer with. */
export class BadRequest extends Error {
  readonly status: number;
  constructor(status: number, message: string) {
    super(message);
    this.status = status;
  }
}

/** Reads a JSON body of at most `limit` bytes. */
export async function readJsonBody(request: IncomingMessage, limit: number): Promise<unknown> {
  if (!/^application\/json(;|$)/.test(request.headers['content-type'] ?? '')) throw new BadRequest(415, 'not JSON');
  if (Number(request.headers['content-length'] ?? 0) > limit) throw new BadRequest(413, 'too large');
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    size += chunk.length;
    if (size > limit) throw new BadRequest(413, 'too large');
    chunks.push(chunk);
  }
  try {
    return JSON.parse(Buffer.concat(chunks).toString('utf8'));
  } catch {
    throw new BadRequest(400, 'not JSON');
  }
}
