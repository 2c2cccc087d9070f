import { EMPTY_JOB } from '../model/job-text.ts';
import type { MakeTold, Opened, Saved } from '../model/kept.ts';
import type { TellProgress } from '../model/progress.ts';
import { shortOf } from '../model/short-of.ts';

/** Where the job and the shop are kept. */
export interface Store {
  /** Whether a server keeps the files; otherwise this browser does. */
  readonly hasServer: boolean;
  readonly open: () => Promise<Opened>;
  readonly saveJob: (text: string, stamp: string) => Promise<Saved>;
  readonly saveShop: (text: string, stamp: string) => Promise<Saved>;
  /** Tells the drafts of this job from those of others that the browser keeps at the same address. */
  readonly draftName: (opened: Opened) => string;
  /**
   * Makes the whole job into its folder; the lines that the command would print. It tells how many parts
   * are done, and stops behind a part when the signal says so; there are no lines then.
   */
  readonly make:
    | ((tell: TellProgress, signal: AbortSignal) => Promise<readonly string[] | undefined>)
    | undefined;
}

const TOKEN = 'blankwright.token';

/** The token of the server's address, which is then taken out of it; kept for a reload. */
const takeToken = (): string | undefined => {
  const given = /^#token=([\w-]+)$/.exec(location.hash)?.[1];
  if (given !== undefined) {
    sessionStorage.setItem(TOKEN, given);
    history.replaceState(null, '', `${location.pathname}#/`);
  }
  return given ?? sessionStorage.getItem(TOKEN) ?? undefined;
};

/** The store of this page: the server that sent it, or the browser where it is a file by itself. */
export const findStore = (): Store => {
  if (location.protocol === 'http:') {
    const token = takeToken();
    if (token !== undefined) return serverStore(token);
  }
  return browserStore();
};

/** Bytes that a browser sends on behalf of a page that is gone; fewer than it may. */
const KEPT_ALIVE = 30_000;

const GONE =
  'The server cannot be reached. What you typed is kept in this page: start blankwright page again, or download the job.';

const serverStore = (token: string): Store => {
  const send = async (path: string, body?: unknown, signal?: AbortSignal): Promise<Response> =>
    fetch(path, {
      ...(signal !== undefined && { signal }),
      method: body === undefined ? 'GET' : 'POST',
      headers: {
        'x-blankwright-token': token,
        ...(body !== undefined && { 'content-type': 'application/json' }),
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
      // What is small enough is sent even if the page is closed meanwhile.
      keepalive: body !== undefined && JSON.stringify(body).length < KEPT_ALIVE,
    });
  const save = async (path: string, body: unknown): Promise<Saved> => {
    try {
      const response = await send(path, body);
      return (await response.json()) as Saved;
    } catch {
      return { how: 'refused', why: GONE };
    }
  };
  return {
    hasServer: true,
    open: async () => {
      const response = await send('/files');
      if (!response.ok) throw new Error(((await response.json()) as { why: string }).why);
      return (await response.json()) as Opened;
    },
    saveJob: (text, stamp) => save('/files', { job: text, stamp }),
    saveShop: (text, stamp) => save('/files', { shop: text, stamp }),
    draftName: ({ name }) => name,
    make: async (tell, signal) => {
      try {
        return await madeLines(await send('/make', {}, signal), tell);
      } catch (error) {
        if (signal.aborted) return undefined;
        throw error;
      }
    },
  };
};

/** What the server tells of a job while it makes it: a line of JSON for each part, then what came of it. */
const madeLines = async (response: Response, tell: TellProgress): Promise<readonly string[]> => {
  if (!response.ok || response.body === null)
    throw new Error(((await response.json()) as { why: string }).why);
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  for (;;) {
    const { done, value = '' } = await reader.read();
    const lines = (text + value).split('\n');
    text = lines.pop() ?? '';
    for (const line of lines) {
      const made = JSON.parse(line) as MakeTold;
      if ('lines' in made) return made.lines;
      if ('why' in made) throw new Error(made.why);
      tell({ doing: 'parts', ...made });
    }
    if (done) throw new Error('The server ended before the job was done.');
  }
};

/** The job that a saved page begins with. */
type KeptJob = Pick<Opened, 'job' | 'shop' | 'name'>;

const kept = (): KeptJob | null =>
  JSON.parse(document.querySelector('#kept')?.textContent ?? 'null') as KeptJob | null;

/** Keeps the texts in the browser, for a page that was opened as a file. */
const browserStore = (): Store => {
  const first = kept();
  const own = first === null ? '' : `.${shortOf(first.job)}`;
  const keep = (key: string, text: string): Saved => {
    try {
      localStorage.setItem(`blankwright.${key}${own}`, text);
      return { how: 'saved', stamp: text };
    } catch {
      return {
        how: 'refused',
        why: 'This browser keeps nothing more. Download the job before you close the page.',
      };
    }
  };
  const inBrowser = (key: string): string | null => {
    try {
      return localStorage.getItem(`blankwright.${key}${own}`);
    } catch {
      return null;
    }
  };
  const jobNow = (): string => inBrowser('job') ?? first?.job ?? EMPTY_JOB;
  const shopNow = (): string | null => inBrowser('shop') ?? first?.shop ?? null;
  // Another page of this browser may have the same job open.
  const save = (key: string, there: string, text: string, stamp: string): Promise<Saved> =>
    Promise.resolve(
      there !== stamp && there !== text
        ? { how: 'changed', theirs: there, stamp: there }
        : keep(key, text),
    );
  return {
    hasServer: false,
    open: () =>
      Promise.resolve({
        job: jobNow(),
        shop: shopNow(),
        name: first?.name ?? 'job.yaml',
        stamp: jobNow(),
        shopStamp: shopNow() ?? '',
      }),
    saveJob: (text, stamp) => save('job', jobNow(), text, stamp),
    saveShop: (text, stamp) => save('shop', shopNow() ?? '', text, stamp),
    draftName: () => `own${own}`,
    make: undefined,
  };
};
