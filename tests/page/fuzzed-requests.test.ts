import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { tempFolder } from '../helpers/command.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { asked, servedJob, type ServedJob } from './served.ts';

/** Whatever is sent to the page's server: it answers that it will not, writes nothing, and goes on. */

const JOB = 'title: cart # the old one\nparts: []\n';

/** Sends bytes as they are, and hangs up or waits for the answer; what came back. */
const sent = (port: number, bytes: string, hangsUp: boolean): Promise<string> =>
  new Promise((done) => {
    let text = '';
    const socket = connect(port, '127.0.0.1', () => {
      socket.write(bytes, 'latin1', () => (hangsUp ? socket.destroy() : socket.end()));
    });
    socket.on('data', (chunk: Buffer) => (text += chunk.toString('latin1')));
    socket.on('error', () => done(text));
    socket.on('close', () => done(text));
  });

const statusOf = (answer: string): number => Number(/^HTTP\/1\.1 (\d+)/.exec(answer)?.[1] ?? 0);

const method = fc.oneof(
  fc.constantFrom('GET', 'POST', 'PUT', 'DELETE', 'HEAD', 'OPTIONS', 'PATCH', 'TRACE', 'CONNECT'),
  fc.constantFrom('get', 'POST ', 'P\u0000ST', 'M-SEARCH', 'PROPFIND', ''),
);
const path = fc.oneof(
  fc.constantFrom('/', '/files', '/make', '/files/', '//files', '/make?x', '/../job.yaml', '*'),
  fc.constantFrom('http://cart.example/files', '/%00', '/%2e%2e/%2e%2e/etc/passwd', '\\files'),
  fc.webPath(),
);
const body = fc.oneof(
  fc.json(),
  fc.constantFrom('', 'null', '[]', '{"job":1}', '{"job":"x"}', '{"stamp":"x"}', '{"job":'),
  fc.constantFrom('{"job":"title: theirs","stamp":"old"}', '{"shop":"name: x","stamp":[]}'),
  fc.constantFrom('{"__proto__":{"job":"x","stamp":"y"}}', '\u0000'.repeat(9), '"x"', '{"job":{}}'),
  fc.string({ unit: 'binary-ascii', maxLength: 200 }),
);
type Said = 'own' | 'other' | 'none' | 'odd';
const said = fc.oneof(
  { weight: 8, arbitrary: fc.constant<Said>('own') },
  { weight: 1, arbitrary: fc.constantFrom<Said[]>('other', 'none', 'odd') },
);

const request = fc.record({
  method: fc.oneof(fc.constant('POST'), method),
  path: fc.oneof(fc.constant('/files'), path),
  body,
  host: said,
  origin: said,
  token: said,
  type: said,
  length: fc.constantFrom('right', 'right', 'short', 'long', 'huge', 'none', 'odd', 'chunked'),
  /** How much of it is sent before the line goes dead. */
  share: fc.constantFrom(1, 1, 1, 0.9, 0.5, 0.1),
  isTwice: fc.boolean(),
});

const VALUES: Readonly<Record<string, Readonly<Record<Exclude<Said, 'own'>, string>>>> = {
  Host: { other: 'cart.example', none: '', odd: '\t, ,' },
  Origin: { other: 'http://cart.example', none: '', odd: 'null' },
  'X-Blankwright-Token': { other: 'a'.repeat(32), none: '', odd: '\u00ff\u0001' },
  'Content-Type': { other: 'text/plain', none: '', odd: 'application/json; charset=x' },
};

const headerOf = (name: string, what: Said, own: string): string => {
  const value = what === 'own' ? own : (VALUES[name]?.[what] ?? '');
  return value === '' ? '' : `${name}: ${value}\r\n`;
};

const written = (
  r: typeof request extends fc.Arbitrary<infer R> ? R : never,
  served: ServedJob,
) => {
  const host = `127.0.0.1:${served.port}`;
  const bytes = Buffer.byteLength(r.body, 'latin1');
  const lengths: Readonly<Record<string, string>> = {
    right: `Content-Length: ${bytes}\r\n`,
    short: `Content-Length: ${Math.floor(bytes / 2)}\r\n`,
    long: `Content-Length: ${bytes + 7}\r\n`,
    huge: 'Content-Length: 999999999999\r\n',
    odd: 'Content-Length: -1\r\nContent-Length: 3\r\n',
    chunked: 'Transfer-Encoding: chunked\r\n',
  };
  const content =
    r.length === 'chunked' ? `${bytes.toString(16)}\r\n${r.body}\r\n0\r\n\r\n` : r.body;
  const all = [
    `${r.method} ${r.path} HTTP/1.1\r\n`,
    headerOf('Host', r.host, host),
    headerOf('Origin', r.origin, `http://${host}`),
    headerOf('X-Blankwright-Token', r.token, served.token),
    headerOf('Content-Type', r.type, 'application/json'),
    lengths[r.length] ?? '',
    'Connection: close\r\n\r\n',
    content,
  ].join('');
  return (r.isTwice ? all + all : all).slice(0, Math.ceil(r.share * all.length));
};

test('requests at random: never an error of its own, no file written, and the job still there', async () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'job.yaml'), JOB);
  const served = await servedJob(folder);
  const statuses = new Set<number>();
  await fc.assert(
    fc.asyncProperty(request, async (r) => {
      // To make the job, or to save it with the right stamp, is what the page may do.
      fc.pre(!(r.method === 'POST' && r.path === '/make'));
      const answer = await sent(served.port, written(r, served), r.share < 1);
      expect(answer).not.toMatch(/^HTTP\/1\.1 5/);
      statuses.add(statusOf(answer));
      if (r.host !== 'own' || r.token !== 'own') expect(answer).not.toContain('the old one');
    }),
    { numRuns: fuzzRuns(600) },
  );
  expect([...statuses]).toEqual(expect.arrayContaining([400, 403]));
  expect([readdirSync(folder), readFileSync(join(folder, 'job.yaml'), 'utf8')]).toEqual([
    ['job.yaml'],
    JOB,
  ]);
  const files = await asked(served, 'GET', '/files');
  expect([files.status, files.text.includes('the old one')]).toEqual([200, true]);
});

test('hundreds of requests that stay half sent leave it answering', async () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'job.yaml'), JOB);
  const served = await servedJob(folder);
  const head = `POST /files HTTP/1.1\r\nHost: 127.0.0.1:${served.port}\r\nX-Blankwright-Token: ${served.token}\r\nContent-Type: application/json\r\n`;
  const half = Array.from({ length: 200 }, () => {
    const socket = connect(served.port, '127.0.0.1');
    socket.on('error', () => undefined);
    socket.write(`${head}Content-Length: 5000\r\n\r\n{"job":"`);
    return socket;
  });
  expect((await asked(served, 'GET', '/files')).status).toBe(200);
  for (const socket of half) socket.destroy();
  expect((await asked(served, 'GET', '/files')).status).toBe(200);
  expect(readFileSync(join(folder, 'job.yaml'), 'utf8')).toBe(JOB);
});
