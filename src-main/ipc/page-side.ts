import { HOST_METHODS, type HostMethod, type HostReply, type RimwardHost } from './contract.ts';

/**
 * The page's end of the interface, made of one function that carries a call across. Used by the preload and by the
 * loopback script, so it may use nothing that only one of them has.
 */
export function pageSideHost(carry: (method: HostMethod, args: readonly unknown[]) => Promise<HostReply>): RimwardHost {
  const call = async (method: HostMethod, args: readonly unknown[]): Promise<unknown> => {
    const reply = await carry(method, args);
    if (!reply.ok) throw new Error(reply.problems.join('\n'));
    return reply.value;
  };
  const entries = HOST_METHODS.map((method) => [method, (...args: unknown[]) => call(method, args)] as const);
  return Object.fromEntries(entries) as unknown as RimwardHost;
}
