/** What commands print through: standard output for results, standard error for everything else. */
export interface Console {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/** The process' own streams. A reader that has gone away (a closed pipe) is no error. */
export const processConsole = (): Console => {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
  }
  return {
    out: (text) => process.stdout.write(`${text}\n`),
    err: (text) => process.stderr.write(`${text}\n`),
  };
};
