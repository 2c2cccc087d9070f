import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { networkInterfaces } from 'node:os';
import { connect } from 'node:net';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runProcess, tempFolder } from '../helpers/command.ts';
import { type Answered, asked, servedJob } from './served.ts';

/** What the page's server takes, and what it refuses: requests of other pages, names and sizes. */

const JOB = 'title: cart # the old one\n\nparts: []\n';

const folderWith = (job: string | undefined): string => {
  const folder = tempFolder();
  if (job !== undefined) writeFileSync(join(folder, 'job.yaml'), job);
  return folder;
};

interface Kept {
  readonly job: string;
  readonly shop: string | null;
  readonly name: string;
  readonly stamp: string;
  readonly shopStamp: string;
}
const keptIn = ({ text }: Answered): Kept => JSON.parse(text) as Kept;

describe('who is answered', () => {
  test('the page is one document that asks for nothing from elsewhere', async () => {
    const served = await servedJob(folderWith(JOB));
    const page = await asked(served, 'GET', '/', { headers: { 'x-blankwright-token': undefined } });
    expect(page.status).toBe(200);
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    expect(page.headers['content-security-policy']).toContain("frame-ancestors 'none'");
    expect(page.text).toContain("default-src 'none'");
    // Its scripts write such elements into papers, which are files of their own.
    const document = page.text.replace(/<script[^]*?<\/script>/g, '');
    expect(document).toContain('<body');
    expect(document).not.toMatch(/<(?:link|img|iframe)[^>]*(?:src|href)=/);
    // Nothing of the job stands in it: whoever gets it without the token has got nothing.
    expect(page.text).not.toContain('the old one');
    expect(Object.keys(page.headers)).not.toContain('access-control-allow-origin');
  });

  test.each([
    ['another host name (DNS rebinding)', { host: 'cart.example:80' }],
    ['the name localhost', { host: 'localhost' }],
    ['another port', { host: '127.0.0.1:1' }],
    ['another origin', { origin: 'http://cart.example' }],
    ['the origin of a file', { origin: 'null' }],
    ['another port of this machine', { origin: 'http://127.0.0.1:1' }],
    ['a page of another site', { 'sec-fetch-site': 'cross-site' }],
    ['a page of the same site on another port', { 'sec-fetch-site': 'same-site' }],
    ['no token', { 'x-blankwright-token': undefined }],
    ['another token', { 'x-blankwright-token': 'a'.repeat(32) }],
    ['a token of another length', { 'x-blankwright-token': 'a' }],
  ])('%s is refused, reading and writing', async (_, headers) => {
    const folder = folderWith(JOB);
    const served = await servedJob(folder);
    const stamp = keptIn(await asked(served, 'GET', '/files')).stamp;
    const read = await asked(served, 'GET', '/files', { headers });
    const body = JSON.stringify({ job: 'title: theirs\nparts: []\n', stamp });
    const write = await asked(served, 'POST', '/files', { body, headers });
    const make = await asked(served, 'POST', '/make', { body: '{}', headers });
    expect([read.status, write.status, make.status]).toEqual([403, 403, 403]);
    expect(read.text).not.toContain('the old one');
    expect(readFileSync(join(folder, 'job.yaml'), 'utf8')).toBe(JOB);
    expect(existsSync(join(folder, 'out'))).toBe(false);
  });

  test.each([
    ['a form', 'application/x-www-form-urlencoded'],
    ['a plain text', 'text/plain'],
    ['nothing said', undefined],
  ])('what a form can send without asking is refused: %s', async (_, type) => {
    const folder = folderWith(JOB);
    const served = await servedJob(folder);
    const { status } = await asked(served, 'POST', '/files', {
      body: '{}',
      headers: { 'content-type': type },
    });
    expect(status).toBe(415);
  });

  test.each([
    '/job.yaml',
    '/../job.yaml',
    '/files/../../etc/passwd',
    '/%2e%2e/job.yaml',
    '//x',
    '/files?a=1',
  ])('there is no path to any file: %s', async (path) => {
    const served = await servedJob(folderWith(JOB));
    const { status, text } = await asked(served, 'GET', path);
    expect(status).toBe(404);
    expect(text).not.toContain('the old one');
  });

  test('from no other address of this machine', async () => {
    const { port } = await servedJob(folderWith(JOB));
    const others = Object.values(networkInterfaces()).flatMap((list) =>
      (list ?? []).filter(({ internal, family }) => !internal && family === 'IPv4'),
    );
    for (const { address } of others)
      await expect(
        new Promise((done, fail) => {
          connect(port, address, () => done(address)).on('error', fail);
        }),
      ).rejects.toThrow('ECONNREFUSED');
  });
});

describe('what is kept', () => {
  test('a job is read, saved, and refused where it was changed meanwhile', async () => {
    const folder = folderWith(JOB);
    const served = await servedJob(folder);
    const kept = keptIn(await asked(served, 'GET', '/files'));
    expect(kept).toMatchObject({ job: JOB, shop: null, name: 'job.yaml' });
    const mine = JOB.replace('cart', 'cart 2');
    const save = (job: string, stamp: string) =>
      asked(served, 'POST', '/files', { body: JSON.stringify({ job, stamp }) });
    const first = JSON.parse((await save(mine, kept.stamp)).text) as { how: string; stamp: string };
    expect(first.how).toBe('saved');
    expect(readFileSync(join(folder, 'job.yaml'), 'utf8')).toBe(mine);
    writeFileSync(join(folder, 'job.yaml'), 'title: theirs\nparts: []\n');
    const second = JSON.parse((await save(JOB, first.stamp)).text) as Record<string, string>;
    expect(second).toMatchObject({ how: 'changed', theirs: 'title: theirs\nparts: []\n' });
    expect(readFileSync(join(folder, 'job.yaml'), 'utf8')).toContain('theirs');
    // Whoever has seen what it says now may save.
    const third = JSON.parse((await save(JOB, second['stamp'] ?? '')).text) as { how: string };
    expect(third.how).toBe('saved');
  });

  test('a job that is not there yet begins empty, and is there once it is saved', async () => {
    const folder = folderWith(undefined);
    const served = await servedJob(folder, 'new.yaml');
    const { job, stamp } = keptIn(await asked(served, 'GET', '/files'));
    expect(job).toContain('parts: []');
    expect(existsSync(join(folder, 'new.yaml'))).toBe(false);
    await asked(served, 'POST', '/files', { body: JSON.stringify({ job: JOB, stamp }) });
    expect(readFileSync(join(folder, 'new.yaml'), 'utf8')).toBe(JOB);
  });

  test('a shop is saved beside the job, read from there, and refused where it was changed meanwhile', async () => {
    const folder = folderWith(JOB);
    const served = await servedJob(folder);
    const file = join(folder, 'shop.yaml');
    const save = async (shop: string, stamp: string) =>
      JSON.parse(
        (await asked(served, 'POST', '/files', { body: JSON.stringify({ shop, stamp }) })).text,
      ) as Record<string, string>;
    const { shopStamp } = keptIn(await asked(served, 'GET', '/files'));
    const first = await save('name: barn\n', shopStamp);
    expect(first['how']).toBe('saved');
    expect(readFileSync(file, 'utf8')).toBe('name: barn\n');
    expect(keptIn(await asked(served, 'GET', '/files'))).toMatchObject({
      shop: 'name: barn\n',
      shopStamp: first['stamp'],
    });
    writeFileSync(file, 'name: theirs\n');
    const second = await save('name: mine\n', first['stamp'] ?? '');
    expect(second).toMatchObject({ how: 'changed', theirs: 'name: theirs\n' });
    expect(readFileSync(file, 'utf8')).toBe('name: theirs\n');
    expect((await save('name: mine\n', second['stamp'] ?? ''))['how']).toBe('saved');
    expect(readFileSync(file, 'utf8')).toBe('name: mine\n');
  });

  test('a disk that refuses is told, and nothing is lost', async () => {
    const folder = folderWith(JOB);
    const served = await servedJob(folder);
    const { stamp } = keptIn(await asked(served, 'GET', '/files'));
    // A link is not written through, whoever runs this test.
    const elsewhere = tempFolder();
    writeFileSync(join(elsewhere, 'job.yaml'), JOB);
    symlinkSync(join(elsewhere, 'job.yaml'), join(folder, 'link.yaml'));
    const linked = await servedJob(folder, 'link.yaml');
    const { text } = await asked(linked, 'POST', '/files', {
      body: JSON.stringify({ job: 'title: x\nparts: []\n', stamp }),
    });
    expect(JSON.parse(text)).toMatchObject({ how: 'refused' });
    expect(readFileSync(join(elsewhere, 'job.yaml'), 'utf8')).toBe(JOB);
  });

  test('more than a job may hold is refused before it is all there', async () => {
    const served = await servedJob(folderWith(JOB));
    const body = JSON.stringify({ job: 'x'.repeat(31_000_000), stamp: '' });
    const answered = await asked(served, 'POST', '/files', { body }).catch(
      (error: unknown) => error,
    );
    // The server may hang up before the client has sent all of it.
    if (answered instanceof Error) expect(answered.message).toMatch(/EPIPE|ECONNRESET|hang up/);
    else expect((answered as Answered).status).toBe(413);
    expect((await asked(served, 'GET', '/files')).status).toBe(200);
  });

  test.each([
    '',
    '[]',
    'null',
    '"x"',
    '{"job":1,"stamp":""}',
    '{"job":"x"}',
    '{"shop":"x"}',
    '{',
    '{"__proto__":{"shop":"x"}}',
  ])('a body that is none is refused: %s', async (body) => {
    const folder = folderWith(JOB);
    const served = await servedJob(folder);
    expect((await asked(served, 'POST', '/files', { body })).status).toBe(400);
    expect(readFileSync(join(folder, 'job.yaml'), 'utf8')).toBe(JOB);
    expect(existsSync(join(folder, 'shop.yaml'))).toBe(false);
  });

  test('the job is made by the same code as the command', async () => {
    const folder = folderWith(
      'title: cart\nparts:\n  - family: bracket-angle\n    inputs: { legA: 60, legB: 40, width: 80, thickness: 2 }\n',
    );
    const served = await servedJob(folder);
    const { text } = await asked(served, 'POST', '/make', { body: '{}' });
    const [part, end] = text.trim().split('\n');
    expect(JSON.parse(part ?? '')).toEqual({ done: 1, of: 1 });
    expect((JSON.parse(end ?? '') as { lines: string[] }).lines.join('\n')).toMatch(
      /^made.*bracket-angle/,
    );
  });
});

describe('its end', () => {
  // An input that is still open holds no process that was told to end: nobody closes it for one that
  // another program started.
  test('it ends with its input, and with a signal while its input is open', async () => {
    expect(await (await servedJob(folderWith(JOB))).end()).toBe(0);
    expect(await (await servedJob(folderWith(JOB))).kill('SIGTERM')).toBe(0);
    expect(await (await servedJob(folderWith(JOB))).kill('SIGINT')).toBe(0);
  });

  test('a folder that may not be written to still shows its job', async () => {
    const folder = folderWith(JOB);
    mkdirSync(join(folder, 'closed'));
    writeFileSync(join(folder, 'closed', 'job.yaml'), JOB);
    chmodSync(join(folder, 'closed'), 0o555);
    const served = await servedJob(join(folder, 'closed'));
    expect(keptIn(await asked(served, 'GET', '/files')).job).toBe(JOB);
    chmodSync(join(folder, 'closed'), 0o755);
  });
});

describe('as one file', () => {
  test('it is written with the job and its shop in it, and not over anything else', async () => {
    const folder = folderWith(JOB);
    writeFileSync(join(folder, 'shop.yaml'), 'name: barn </script><script>alert(1)\n');
    const ran = await runProcess(['page', 'job.yaml', '--save', 'cart.html'], folder);
    expect(ran.code).toBe(0);
    const text = readFileSync(join(folder, 'cart.html'), 'utf8');
    const kept = /<script type="application\/json" id="kept">(.*?)<\/script>/.exec(text)?.[1] ?? '';
    expect(JSON.parse(kept)).toEqual({
      job: JOB,
      shop: 'name: barn </script><script>alert(1)\n',
      name: 'job.yaml',
    });
    expect(text).not.toContain('<script>alert');
    expect((await runProcess(['page', '--save', 'cart.html'], folder)).code).toBe(0);
    writeFileSync(join(folder, 'other.html'), '<p>mine</p>');
    expect((await runProcess(['page', '--save', 'other.html'], folder)).code).toBe(2);
    expect(readFileSync(join(folder, 'other.html'), 'utf8')).toBe('<p>mine</p>');
    expect((await runProcess(['page', '--save', 'cart.txt'], folder)).code).toBe(2);
  });
});
