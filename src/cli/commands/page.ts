import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeParts } from '../../use/make/make-parts.ts';
import type { Console } from '../console.ts';
import type { OnPart } from '../page/server.ts';
import { DiskRefused, EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { saveNamed } from '../save.ts';
import type { RunCommand } from './index.ts';
import { runJobCommand } from './job.ts';

/** The page, beside the program. */
const PAGE = fileURLToPath(new URL('page.html', import.meta.url));
/** What the page carries near its start. */
const MARK = 'blankwright page';

const PAGE_FLAGS = {
  'no-open': {
    type: 'boolean',
    describe: 'Print the address only, and open no browser',
  },
  save: {
    type: 'string',
    describe:
      'Write the page into this file and end: it works by itself, without network, on any computer or phone',
  },
  force: {
    type: 'boolean',
    describe: 'With --save: replace a file that was not made by this command',
  },
} as const satisfies FlagSpecs;

/**
 * `page [JOB.yaml]`: the whole tool as a page in the browser, which this command serves on this
 * machine alone. It reads and writes the job file, which need not exist yet, and the shop file.
 * With `--json` the first line is `{"url"}`, and it serves until its input ends; it always ends with
 * SIGTERM or Ctrl+C.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: 'page [JOB.yaml]',
    flags: PAGE_FLAGS,
    words: 2,
  });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  const save = textOf(flags, 'save');
  if (save !== undefined) return savePage(save, file, flags['force'] === true, console);
  const isJson = flags['json'] === true;
  await serve(resolve(file ?? 'job.yaml'), console, {
    isJson,
    isOpened: flags['no-open'] !== true && !isJson,
    endsWithInput: isJson,
  });
  return EXIT.made;
};

const pageText = (): string => readFileSync(PAGE, 'utf8');

/** Where the saved page has the job that it begins with. */
const NOTHING_KEPT = '<script type="application/json" id="kept">null</script>';

/** The page with a job and its shop in it, for a computer that has neither file. */
const pageWith = async (jobFile: string): Promise<string> => {
  const { pageFiles } = await import('../page/page-files.ts');
  const { job, shop, name } = await pageFiles(resolve(jobFile)).open();
  // Nothing in the text may end the element that it stands in.
  const kept = JSON.stringify({ job, shop, name }).replaceAll('<', '\\u003c');
  return pageText().replace(NOTHING_KEPT, () => NOTHING_KEPT.replace('null', () => kept));
};

const savePage = async (
  path: string,
  jobFile: string | undefined,
  force: boolean,
  { out }: Console,
): Promise<number> => {
  const name = basename(path);
  if (!/\.html?$/i.test(name))
    throw new WrongInput([
      {
        input: 'save',
        given: `'${path}'`,
        allowed: 'the name of a page, which ends in .html',
        mend: `--save ${name}.html`,
      },
    ]);
  const contents = jobFile === undefined ? pageText() : await pageWith(jobFile);
  const file = { name, contents, mark: MARK };
  const pathOf = saveNamed(dirname(path), [file], force);
  out(`Written: ${pathOf(name)}`);
  return EXIT.made;
};

/** How a page is served. */
export interface Serving {
  /** Whether a program reads what is printed. */
  readonly isJson: boolean;
  /** Whether a browser is to open it, where there is one. */
  readonly isOpened: boolean;
  /** Whether it ends when its input does, as for a program that started it. */
  readonly endsWithInput: boolean;
  /** The folder that the job's own is made in; by the job where it is left out. */
  readonly out?: string;
}

/** Serves the page of a job file until the process is told to end. */
export const serve = async (
  jobFile: string,
  console: Console,
  { isJson, isOpened, endsWithInput, out }: Serving,
): Promise<void> => {
  const [{ servePage }, { pageFiles }, { openInBrowser }, { untilEnded }] = await Promise.all([
    import('../page/server.ts'),
    import('../page/page-files.ts'),
    import('../page/open-browser.ts'),
    import('../page/until-ended.ts'),
  ]);
  // Who starts it may end it at any moment from now on.
  const ended = untilEnded(endsWithInput);
  const server = await servePage({
    html: pageText(),
    files: pageFiles(jobFile),
    port: portOf(jobFile),
    make: oneByOne((onPart) => madeLines(jobFile, { out, onPart }, console)),
  });
  console.out(
    isJson
      ? JSON.stringify({ url: server.url })
      : `The page is at ${server.url}\nIt is for this computer alone. End with Ctrl+C.`,
  );
  if (isOpened) openInBrowser(server.url);
  await ended;
  await server.close();
};

/** Ports that nobody is given for good (RFC 6335, section 6). */
const FIRST_PORT = 49_152;
const PORTS = 16_384;

/**
 * A job is served at the same port each time: what a browser has kept of it, because the server was gone
 * when it was typed, is kept for that address alone.
 */
const portOf = (jobFile: string): number =>
  FIRST_PORT + (createHash('sha256').update(jobFile).digest().readUInt32BE() % PORTS);

/** One after the other: a job that was stopped ends behind its part before it is made again. */
const oneByOne = <A, T>(make: (ask: A) => Promise<T>): ((ask: A) => Promise<T>) => {
  let last: Promise<unknown> = Promise.resolve();
  return (ask) => {
    const next = last.then(() => make(ask));
    last = next.catch(() => undefined);
    return next;
  };
};

/** The lines that the command `job` prints, and what it could not do; none where it was stopped. */
const madeLines = async (
  jobFile: string,
  { out, onPart }: { readonly out: string | undefined; readonly onPart: OnPart },
  console: Console,
): Promise<string[] | undefined> => {
  const lines: string[] = [];
  const take = (line: string): void => {
    lines.push(line);
  };
  try {
    const into = out === undefined ? [] : ['--out', out];
    const own = { ...console, out: take, err: take };
    await runJobCommand(['job', jobFile, ...into], own, makeParts, async (done, of) => {
      if (!(await onPart(done, of))) throw new Stopped();
    });
  } catch (error) {
    if (error instanceof Stopped) return undefined;
    if (!(error instanceof WrongInput) && !(error instanceof DiskRefused)) throw error;
    take(error.message);
  }
  return lines;
};

/** The page asked for no more. */
class Stopped extends Error {}
