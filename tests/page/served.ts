import { spawn } from 'node:child_process';
import { request } from 'node:http';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { COMMAND } from '../helpers/command.ts';

/** The page's server, as `blankwright page` starts it, in a process of its own. */
export interface ServedJob {
  /** The address with its token. */
  readonly url: string;
  readonly port: number;
  readonly token: string;
  /** Ends its input, as a program that started it does, and gives its exit code. */
  readonly end: () => Promise<number | null>;
  readonly kill: (signal: NodeJS.Signals) => Promise<number | null>;
}

export const servedJob = (folder: string, file = 'job.yaml'): Promise<ServedJob> =>
  serving(['page', join(folder, file), '--json'], folder);

/** What a command serves that prints the address of its page, and goes on until it is ended. */
export const serving = async (args: readonly string[], cwd: string): Promise<ServedJob> => {
  const child = spawn(process.execPath, [COMMAND, ...args], {
    cwd,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise<number | null>((done) => child.once('exit', (code) => done(code)));
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  const url = await new Promise<string>((done, fail) => {
    let text = '';
    child.stdout.on('data', (chunk: Buffer) => {
      text += chunk.toString();
      const found = /http:[^\s"]+(?=["\n])/.exec(text);
      if (found !== null) done(found[0]);
    });
    child.once('exit', (code) => fail(new Error(`it ended with ${code}: ${text}`)));
  });
  const { port, hash } = new URL(url);
  return {
    url,
    port: Number(port),
    token: hash.replace('#token=', ''),
    end: () => {
      child.stdin.end();
      return ended;
    },
    kill: (signal) => {
      child.kill(signal);
      return ended;
    },
  };
};

export interface Answered {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly text: string;
}

/** A request with any headers, even those that a browser would not let a page set. */
export const asked = (
  { port, token }: Pick<ServedJob, 'port' | 'token'>,
  method: string,
  path: string,
  {
    body,
    headers = {},
  }: {
    readonly body?: string;
    readonly headers?: Readonly<Record<string, string | undefined>>;
  } = {},
): Promise<Answered> =>
  new Promise((done, fail) => {
    const all = {
      host: `127.0.0.1:${port}`,
      'x-blankwright-token': token,
      ...(body !== undefined && { 'content-type': 'application/json' }),
      ...headers,
    };
    const sent = request(
      {
        port,
        host: '127.0.0.1',
        // A connection of its own: a refused one may be closed.
        agent: false,
        method,
        path,
        headers: Object.fromEntries(
          Object.entries(all).flatMap(([k, v]) => (v === undefined ? [] : [[k, v]])),
        ),
      },
      (response) => {
        let text = '';
        response.on('data', (chunk: Buffer) => (text += chunk.toString()));
        response.on('end', () =>
          done({ status: response.statusCode ?? 0, headers: response.headers, text }),
        );
        response.on('error', fail);
      },
    );
    sent.on('error', fail);
    sent.end(body);
  });
