import { EMPTY_JOB } from '../model/job-text.ts';
import type { Opened, Saved } from '../model/kept.ts';

/** Where the job and the shop are kept. */
export interface Store {
  /** Whether a server keeps the files; otherwise this browser does. */
  readonly hasServer: boolean;
  readonly open: () => Promise<Opened>;
  readonly saveJob: (text: string, stamp: string) => Promise<Saved>;
  readonly saveShop: (text: string) => Promise<Saved>;
  /** Makes the whole job into its folder; the lines that the command would print. */
  readonly make: (() => Promise<readonly string[]>) | undefined;
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

const GONE =
  'The server cannot be reached. What you typed is kept in this page: start blankwright page again, or download the job.';

const serverStore = (token: string): Store => {
  const send = async (path: string, body?: unknown): Promise<Response> =>
    fetch(path, {
      method: body === undefined ? 'GET' : 'POST',
      headers: {
        'x-blankwright-token': token,
        ...(body !== undefined && { 'content-type': 'application/json' }),
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
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
    saveShop: (text) => save('/files', { shop: text }),
    make: async () => {
      const response = await send('/make', {});
      const told = (await response.json()) as { readonly lines: readonly string[] };
      return told.lines;
    },
  };
};

const KEPT_JOB = 'blankwright.job';
const KEPT_SHOP = 'blankwright.shop';

/** Keeps the texts in the browser, for a page that was opened as a file. */
const browserStore = (): Store => {
  const keep = (key: string, text: string): Saved => {
    try {
      localStorage.setItem(key, text);
      return { how: 'saved', stamp: '' };
    } catch {
      return {
        how: 'refused',
        why: 'This browser keeps nothing more. Download the job before you close the page.',
      };
    }
  };
  const kept = (key: string): string | null => {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  };
  return {
    hasServer: false,
    open: () =>
      Promise.resolve({
        job: kept(KEPT_JOB) ?? EMPTY_JOB,
        shop: kept(KEPT_SHOP),
        name: 'job.yaml',
        stamp: '',
      }),
    saveJob: (text) => Promise.resolve(keep(KEPT_JOB, text)),
    saveShop: (text) => Promise.resolve(keep(KEPT_SHOP, text)),
    make: undefined,
  };
};
