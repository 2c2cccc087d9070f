/**
 * Waits until the process is told to end: by SIGTERM, by Ctrl+C, or, where `endsWithInput` says so, by
 * the end of its input. Nothing holds the process after that: an input that is read and never ends
 * would, when a signal came first.
 */
export const untilEnded = (endsWithInput: boolean): Promise<void> => {
  const { stdin } = process;
  return new Promise<void>((resolve) => {
    process.once('SIGTERM', () => resolve());
    process.once('SIGINT', () => resolve());
    if (!endsWithInput) return;
    for (const event of ['end', 'close', 'error']) stdin.once(event, () => resolve());
    stdin.resume();
  }).finally(() => {
    if (endsWithInput) stdin.destroy();
  });
};
