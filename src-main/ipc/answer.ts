import { HOST_METHODS, type HostMethod, type HostReply, type RimwardHost } from './contract.ts';
import { callArguments, problemLines } from './messages.ts';

/** A call that a person can be told about; its message is shown as it stands. Anything else is a fault of ours. */
export class Refusal extends Error {}

const refuse = (...problems: string[]): HostReply => ({ ok: false, problems });

function isMethod(name: unknown): name is HostMethod {
  return typeof name === 'string' && (HOST_METHODS as readonly string[]).includes(name);
}

/**
 * Answers one call from the page, the same way in both shells. `services` is what the shell can do; a method it leaves
 * out is refused. Never throws: what cannot be done comes back as lines for the person, without paths or stacks.
 */
export async function answerCall(services: Partial<RimwardHost>, method: unknown, args: unknown): Promise<HostReply> {
  if (!isMethod(method)) return refuse(`unknown call ${JSON.stringify(method)?.slice(0, 60)}`);
  const parsed = callArguments[method].safeParse(args);
  if (!parsed.success) return refuse(...problemLines(parsed.error));
  const service = services[method] as ((...given: unknown[]) => Promise<unknown>) | undefined;
  if (service === undefined) return refuse(`${method} is not offered here`);
  try {
    return { ok: true, value: (await service.apply(services, parsed.data as unknown[])) ?? null };
  } catch (fault) {
    if (fault instanceof Refusal) return refuse(fault.message);
    console.error(`The call ${method} failed:`, fault);
    return refuse(`${method} failed inside the program; the terminal it was started from says more`);
  }
}
