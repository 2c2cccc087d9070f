import type { Console } from '../console.ts';

/** Progress of a job, told as it goes. */
export interface Progress {
  readonly tell: (line: string, number: number, of: number) => void;
  readonly end: () => void;
}

/**
 * A bar where a person watches, with lines above it for what needs reading; plain lines, one for
 * each part, where the output goes to a file or a pipe.
 */
export const progressOn = async ({ out }: Console): Promise<Progress> => {
  if (process.stdout.isTTY !== true || process.stderr.isTTY !== true)
    return { tell: out, end: () => undefined };
  const {
    default: { SingleBar },
  } = await import('cli-progress');
  const bar = new SingleBar({
    format: '{bar} {value} of {total}',
    barCompleteChar: '=',
    barIncompleteChar: ' ',
    hideCursor: true,
    clearOnComplete: true,
    stream: process.stderr,
  });
  const needsReading: string[] = [];
  let isRunning = false;
  return {
    tell: (line, number, of) => {
      if (!isRunning) bar.start(of, 0);
      isRunning = true;
      if (line.startsWith('refused')) needsReading.push(line);
      bar.update(number);
    },
    end: () => {
      bar.stop();
      for (const line of needsReading) out(line);
    },
  };
};
