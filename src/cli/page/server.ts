import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { MakeTold } from '../../page/model/kept.ts';
import { WrongInput } from '../failure.ts';
import { type Known, refusalOf } from './guard.ts';
import { LARGEST_BYTES, type PageFiles } from './page-files.ts';

export interface PageServer {
  /** The address to open, with the token in its fragment. */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** Is told of each part that is made, and answers whether the job goes on. */
export type OnPart = (done: number, of: number) => Promise<boolean>;

export interface ServedPage {
  /** The page, a whole HTML document. */
  readonly html: string;
  readonly files: PageFiles;
  /** The port that it is served at where that is free; another one where it is not. */
  readonly port: number;
  /**
   * Makes the whole job into its folder; the lines that the command prints. It stops behind a part when
   * the one that is told of it answers so, and there are no lines then.
   */
  readonly make: (onPart: OnPart) => Promise<readonly string[] | undefined>;
}

/** The address of this machine for itself: nothing else can reach it. */
const LOOPBACK = '127.0.0.1';
const TOKEN_BYTES = 24;

const HEADERS = {
  'cache-control': 'no-store',
  'content-security-policy': "frame-ancestors 'none'",
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'referrer-policy': 'no-referrer',
  'x-content-type-options': 'nosniff',
} as const;

/** Serves the page on this machine alone until it is closed. */
export const servePage = async (served: ServedPage): Promise<PageServer> => {
  const token = randomBytes(TOKEN_BYTES).toString('base64url');
  let known: Known = { host: '', token };
  const server = createServer((request, response) => {
    void answer(request, response, served, known);
  });
  server.headersTimeout = 10_000;
  server.requestTimeout = 30_000;
  await listening(server, served.port).catch(() => listening(server, 0));
  const { port } = server.address() as AddressInfo;
  known = { host: `${LOOPBACK}:${port}`, token };
  return {
    url: `http://${known.host}/#token=${token}`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
};

const listening = (server: Server, port: number): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, LOOPBACK, () => {
      server.off('error', reject);
      resolve();
    });
  });

const answer = async (
  request: IncomingMessage,
  response: ServerResponse,
  served: ServedPage,
  known: Known,
): Promise<void> => {
  const refusal = refusalOf(request, known);
  if (refusal !== undefined) {
    send(response, refusal.status, { why: refusal.why });
    return;
  }
  try {
    await route(request, response, served);
  } catch (error) {
    // What a file of the user's cannot do is told; anything else is our own fault, and told too.
    send(response, error instanceof WrongInput ? 422 : 500, {
      why: error instanceof Error ? error.message : String(error),
    });
  }
};

const route = async (
  request: IncomingMessage,
  response: ServerResponse,
  { html, files, make }: ServedPage,
): Promise<void> => {
  const way = `${request.method} ${request.url}`;
  if (way === 'GET /') {
    response.writeHead(200, { ...HEADERS, 'content-type': 'text/html; charset=utf-8' });
    response.end(html);
  } else if (way === 'GET /files') send(response, 200, await files.open());
  else if (way === 'POST /files') {
    const body = await bodyOf(request, response);
    if (body === undefined) return;
    const { job, shop, stamp } = body;
    if (typeof job === 'string' && typeof stamp === 'string')
      send(response, 200, await files.saveJob(job, stamp));
    else if (typeof shop === 'string' && typeof stamp === 'string')
      send(response, 200, await files.saveShop(shop, stamp));
    else send(response, 400, { why: 'neither a job nor a shop with its stamp' });
  } else if (way === 'POST /make') {
    request.resume();
    await tellMaking(response, make);
  } else send(response, 404, { why: 'there is nothing here' });
};

/**
 * Makes the job and tells how far it is, a line of JSON for each part. Whoever asked and is gone has
 * stopped it: between two parts, so that each folder is whole.
 */
const tellMaking = async (response: ServerResponse, make: ServedPage['make']): Promise<void> => {
  const tell = (told: MakeTold): void => {
    if (!response.headersSent)
      response.writeHead(200, { ...HEADERS, 'content-type': 'application/x-ndjson' });
    response.write(`${JSON.stringify(told)}\n`);
  };
  try {
    const lines = await make(async (done, of) => {
      tell({ done, of });
      // That somebody has hung up is noticed at the next turn only.
      await new Promise((turned) => setTimeout(turned));
      return !response.destroyed;
    });
    if (lines !== undefined) tell({ lines });
  } catch (error) {
    tell({ why: error instanceof Error ? error.message : String(error) });
  }
  response.end();
};

/** The JSON object that was sent; `undefined` where it was refused, and told so. */
const bodyOf = async (
  request: IncomingMessage,
  response: ServerResponse,
): Promise<Readonly<Record<string, unknown>> | undefined> => {
  // A character may take six letters in JSON.
  const most = 6 * LARGEST_BYTES;
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > most) {
      send(response, 413, { why: 'more than a job file may hold' });
      request.destroy();
      return undefined;
    }
    chunks.push(chunk);
  }
  try {
    const value: unknown = JSON.parse(Buffer.concat(chunks).toString('utf8'));
    if (typeof value === 'object' && value !== null && !Array.isArray(value))
      return value as Record<string, unknown>;
  } catch {
    // Told below, as for any other value.
  }
  send(response, 400, { why: 'not a JSON object' });
  return undefined;
};

const send = (response: ServerResponse, status: number, body: unknown): void => {
  if (response.headersSent) return;
  response.writeHead(status, { ...HEADERS, 'content-type': 'application/json' });
  response.end(JSON.stringify(body));
};
