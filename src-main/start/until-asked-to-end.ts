/** Resolves when the person or the system asks the program to end (Ctrl+C, a closed terminal, an ordinary kill). */
export function untilAskedToEnd(): Promise<void> {
  return new Promise((resolve) => {
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
    const end = (): void => {
      for (const signal of signals) process.off(signal, end);
      resolve();
    };
    for (const signal of signals) process.on(signal, end);
  });
}
