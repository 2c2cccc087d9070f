/**
 * Seconds of the processor that some work takes in this process. Unlike the time that passes, they
 * are much the same on a machine that does other things too.
 */
export const cpuSeconds = (work: () => void): number => {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
};
