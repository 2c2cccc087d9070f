import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { BRACKET, blankwright, COMMAND, json, type Ran, tempFolder } from '../helpers/command.ts';
import {
  everything,
  filled,
  isPassing,
  once,
  ring,
  ringJob,
  withFault,
} from '../helpers/faults.ts';
import type { JobResult } from '../../src/contract/job.ts';

const RINGS = ['cover', 'lid', 'seal', 'washer', 'cap', 'flange'];
const TEXT = ringJob(RINGS.map((name, i) => ring(name, 100 + i)));
const FOLDER = join('out', 'cart');
const JOB = ['job', 'job.yaml'];

const jobIn = (cwd: string, text: string = TEXT): void =>
  writeFileSync(join(cwd, 'job.yaml'), text);
const statusOf = (ran: Ran): Record<string, string> =>
  Object.fromEntries(json<JobResult>(ran).parts.map((p) => [p.name, p.status]));

/** What an undisturbed run leaves, and how much it does. */
const clean = once(async () => {
  const cwd = tempFolder();
  jobIn(cwd);
  const { code, calls = 0 } = await withFault(JOB, cwd);
  expect(code).toBe(0);
  return { calls, files: everything(join(cwd, FOLDER)) };
});

const made = async (): Promise<string> => {
  const cwd = tempFolder();
  jobIn(cwd);
  filled(join(cwd, FOLDER), (await clean()).files);
  return cwd;
};

describe('links in the folder of a job', () => {
  /** Where each link stands, and where it leads. */
  const LINKS = {
    cover: 'elsewhere',
    'lid/lid.dxf': 'elsewhere/lid.dxf',
    'seal/seal.svg': 'elsewhere/new.svg',
    'washer/.making.json': 'elsewhere/new.json',
    'cap/part.json': 'elsewhere/part.json',
    'index.html': 'elsewhere/new.html',
    'manifest.json': 'elsewhere/part.json',
    old: 'elsewhere/gone',
  };

  /** A job that was made, with links in it; one leads to what looks like a folder of the tool's. */
  const linked = async (): Promise<string> => {
    const cwd = await made();
    const elsewhere = join(cwd, 'elsewhere');
    cpSync(join(cwd, FOLDER, 'lid'), elsewhere, { recursive: true });
    cpSync(join(cwd, FOLDER, 'seal'), join(elsewhere, 'gone'), { recursive: true });
    for (const [at, target] of Object.entries(LINKS)) {
      const path = join(cwd, FOLDER, at);
      rmSync(path, { recursive: true, force: true });
      symlinkSync(resolve(cwd, target), path);
    }
    return cwd;
  };

  test.each<readonly [string, readonly string[]]>([
    ['', []],
    [', forced', ['--all', '--force']],
  ])('are not written through, nor taken away%s', async (_, flags) => {
    const cwd = await linked();
    const before = everything(join(cwd, 'elsewhere'));
    jobIn(cwd, TEXT.replace('outer: 101', 'outer: 121'));
    const ran = await blankwright([...JOB, '--json', ...flags], cwd);
    expect([ran.code, ran.err]).toEqual([1, '']);
    expect(everything(join(cwd, 'elsewhere'))).toEqual(before);
    const left = everything(join(cwd, FOLDER));
    for (const [at, target] of Object.entries(LINKS))
      expect(left).toMatchObject({ [at]: `-> ${join(cwd, target)}` });
    expect(statusOf(ran)).toMatchObject({
      cover: 'refused',
      lid: 'refused',
      seal: 'refused',
      washer: 'refused',
      cap: 'refused',
    });
    for (const { status, reason } of json<JobResult>(ran).parts)
      if (status === 'refused')
        expect(reason).toMatch(/is a link|is not a file|was not made by this command/);
  });

  test('in place of that folder, or of the mark of a running job, are told', async () => {
    const cwd = await made();
    mkdirSync(join(cwd, 'elsewhere'));
    writeFileSync(join(cwd, 'elsewhere', 'dead'), '999999999');
    symlinkSync(join(cwd, 'elsewhere', 'dead'), join(cwd, FOLDER, '.running'));
    const marked = await blankwright(JOB, cwd);
    expect([marked.code, marked.err]).toEqual([
      2,
      expect.stringContaining('.running, which this command did not make'),
    ]);
    renameSync(join(cwd, FOLDER), join(cwd, 'elsewhere', 'cart'));
    symlinkSync(join(cwd, 'elsewhere', 'cart'), join(cwd, FOLDER));
    const before = everything(join(cwd, 'elsewhere'));
    const ran = await blankwright([...JOB, '--all', '--force'], cwd);
    expect([ran.code, ran.err]).toEqual([
      2,
      expect.stringContaining('which is a link to another place'),
    ]);
    expect(everything(join(cwd, 'elsewhere'))).toEqual(before);
  });
});

describe('files in place of folders, and folders in place of files', () => {
  test('refuse their part alone, and nothing of them is lost, forced or not', async () => {
    const cwd = await made();
    rmSync(join(cwd, FOLDER, 'cover'), { recursive: true });
    rmSync(join(cwd, FOLDER, 'lid', 'lid.dxf'));
    filled(join(cwd, FOLDER), { cover: 'mine', 'lid/lid.dxf/': '', 'cutlist.csv.d/': '' });
    for (const flags of [[], ['--force']]) {
      const ran = await blankwright([...JOB, '--json', ...flags], cwd);
      expect([ran.code, ran.err]).toEqual([1, '']);
      expect(statusOf(ran)).toEqual({
        cover: 'refused',
        lid: 'refused',
        seal: 'unchanged',
        washer: 'unchanged',
        cap: 'unchanged',
        flange: 'unchanged',
      });
      expect(everything(join(cwd, FOLDER))).toMatchObject({
        cover: 'mine',
        'lid/lid.dxf/': '',
        'cutlist.csv.d/': '',
      });
    }
    for (const name of ['index.html', 'cutlist.csv', 'manifest.json'])
      rmSync(join(cwd, FOLDER, name));
    mkdirSync(join(cwd, FOLDER, 'manifest.json'));
    rmSync(join(cwd, FOLDER, 'cover'));
    rmSync(join(cwd, FOLDER, 'lid', 'lid.dxf'), { recursive: true });
    const top = await blankwright(JOB, cwd);
    expect([top.code, top.out]).toEqual([
      1,
      expect.stringContaining('did not make it: manifest.json'),
    ]);
  });

  test('a file in place of the folder of all jobs: exit 3', async () => {
    const cwd = tempFolder();
    jobIn(cwd);
    writeFileSync(join(cwd, 'out'), 'mine');
    const ran = await blankwright(JOB, cwd);
    expect([ran.code, ran.out, ran.err]).toEqual([
      3,
      '',
      expect.stringMatching(/^The folder \S+ cannot be made: [^\n]*--out\.\n$/),
    ]);
    expect(everything(cwd)).toMatchObject({ out: 'mine' });
    for (const out of ['/proc/nowhere', '/proc/self'])
      expect((await blankwright([...JOB, '--out', out], cwd)).code).toBe(3);
  });
});

test('a folder that is found under another spelling too, as where capitals do not count, is not taken away', async (ctx) => {
  const cwd = await made();
  const other = join(cwd, FOLDER, 'Cover');
  mkdirSync(other);
  if (spawnSync('mount', ['--bind', join(cwd, FOLDER, 'cover'), other]).status !== 0)
    ctx.skip('binding a folder to a second place is not permitted');
  onTestFinished(() => void execFileSync('umount', [other]));
  const before = everything(join(cwd, FOLDER));
  expect((await blankwright(JOB, cwd)).out).toContain(`0 made, ${RINGS.length} unchanged`);
  expect(everything(join(cwd, FOLDER))).toEqual(before);
});

describe('while the job runs', () => {
  test.each([
    ['the folder of the job is taken away', 'removed', FOLDER, 3],
    ['the folder of the job becomes a file', 'replaced', FOLDER, 3],
    ['the folder of a part is taken away', 'removed', join(FOLDER, 'lid'), 0],
    ['the folder of a part becomes a file', 'replaced', join(FOLDER, 'lid'), 0],
    ['the folder of a part that is being made is taken away', 'removed', join(FOLDER, 'washer'), 3],
  ] as const)('%s', async (_, kind, place, code) => {
    const cwd = tempFolder();
    jobIn(cwd);
    const { calls, files } = await clean();
    const ran = await withFault(JOB, cwd, {
      kind,
      place: join(cwd, place),
      at: Math.floor(0.5 * calls),
    });
    // By then the part has been made.
    expect(ran.code).toBe(code);
    if (code !== 0) expect(ran.err).toMatch(/^[^\n]*: [^\n]*\.\n$/);
    if (kind === 'replaced') {
      expect(readFileSync(join(cwd, place), 'utf8')).toBe('mine');
      rmSync(join(cwd, place));
    } else if (existsSync(join(cwd, FOLDER))) {
      expect(
        Object.entries(everything(join(cwd, FOLDER))).filter(
          ([path, text]) => !isPassing(path) && text !== files[path],
        ),
      ).toEqual([]);
    }
    expect((await blankwright(JOB, cwd)).code).toBe(0);
    expect(everything(join(cwd, FOLDER))).toEqual(files);
  });
});

/** Runs the command as a user who may not do everything. */
const unprivileged = (args: readonly string[], cwd: string, program: string): Ran => {
  const as =
    process.getuid?.() === 0
      ? ['setpriv', '--reuid=65534', '--regid=65534', '--clear-groups']
      : ['env'];
  const [first, ...rest] = [...as, process.execPath, program, ...args] as [string, ...string[]];
  const ran = spawnSync(first, rest, { cwd, encoding: 'utf8', env: { ...process.env, HOME: cwd } });
  return { code: ran.status ?? -1, out: ran.stdout ?? '', err: ran.stderr ?? String(ran.error) };
};

describe('for a user who may not write there', () => {
  /** The command where every user may read it, and a folder of a job made by somebody else. */
  const others = async (): Promise<{ readonly cwd: string; readonly program: string }> => {
    const cwd = await made();
    for (const [path] of Object.entries(everything(cwd))) chmodSync(join(cwd, path), 0o755);
    chmodSync(cwd, 0o755);
    const program = join(cwd, '.program', 'blankwright.cjs');
    mkdirSync(dirname(program));
    for (const name of ['blankwright.cjs', 'cli.cjs'])
      cpSync(join(dirname(COMMAND), name), join(dirname(program), name));
    return { cwd, program };
  };

  test('a job and a part end with exit 3, and nothing has changed', async (ctx) => {
    const { cwd, program } = await others();
    if (unprivileged(['--version'], cwd, program).code !== 0)
      ctx.skip('running as another user is not permitted');
    jobIn(cwd, TEXT.replace('outer: 100', 'outer: 130'));
    chmodSync(join(cwd, 'out'), 0o555);
    chmodSync(join(cwd, FOLDER), 0o555);
    const before = everything(cwd);
    for (const args of [JOB, BRACKET, ['pack', 'job.yaml', '--out', 'out']]) {
      const ran = unprivileged(args, cwd, program);
      expect([ran.code, ran.err]).toEqual([
        3,
        expect.stringMatching(/^[^\n]*(?:no permission|not permitted)[^\n]*\n$/),
      ]);
    }
    expect(everything(cwd)).toEqual(before);
    chmodSync(join(cwd, FOLDER), 0o755);
    chmodSync(join(cwd, 'out'), 0o755);
  });

  test('what cannot be read or written is told of its part', async (ctx) => {
    const { cwd, program } = await others();
    if (unprivileged(['--version'], cwd, program).code !== 0)
      ctx.skip('running as another user is not permitted');
    jobIn(cwd, TEXT.replace('outer: 100', 'outer: 130'));
    if (process.getuid?.() === 0) execFileSync('chown', ['-R', '65534:65534', join(cwd, 'out')]);
    chmodSync(join(cwd, FOLDER, 'lid', 'lid.dxf'), 0o000);
    const hidden = unprivileged(JOB, cwd, program);
    expect([hidden.code, hidden.out]).toEqual([
      1,
      expect.stringContaining(
        'refused    lid: out/cart/lid/lid.dxf was not made by this command, or was changed since',
      ),
    ]);
    chmodSync(join(cwd, FOLDER, 'lid', 'lid.dxf'), 0o644);
    chmodSync(join(cwd, FOLDER, 'seal'), 0o000);
    const closed = unprivileged([...JOB, '--all'], cwd, program);
    expect([closed.code, closed.err]).toEqual([
      3,
      expect.stringMatching(/^[^\n]*seal[^\n]*no permission[^\n]*\n$/),
    ]);
    chmodSync(join(cwd, FOLDER, 'seal'), 0o755);
    expect(unprivileged(JOB, cwd, program).code).toBe(0);
  });
});
