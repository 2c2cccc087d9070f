import { timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** Why a request is refused, with its status; `undefined` where nothing speaks against it. */
export type Refusal = { readonly status: number; readonly why: string } | undefined;

/** What the server knows of itself. */
export interface Known {
  /** Host and port as the address line has them: `127.0.0.1:40123`. */
  readonly host: string;
  readonly token: string;
}

/**
 * Whether a request comes from the server's own page. Another page open in the same browser could
 * send requests to this machine too:
 *
 * - one that has its own name led here (DNS rebinding) is given away by `Host` alone;
 * - one of another origin by `Origin` and by `Sec-Fetch-Site`, where the browser sends them;
 * - and none of them knows the token, which stands in the address's fragment and is never sent with
 *   the address itself.
 *
 * Programs that send neither `Origin` nor `Sec-Fetch-Site` still need the token.
 */
export const refusalOf = (
  { headers, url, method }: IncomingMessage,
  { host, token }: Known,
): Refusal => {
  if (headers.host !== host) return { status: 403, why: 'this server has another name' };
  const { origin } = headers;
  if (origin !== undefined && origin !== `http://${host}`)
    return { status: 403, why: 'the request comes from another page' };
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none')
    return { status: 403, why: 'the request comes from another page' };
  if (url === '/' && method === 'GET') return undefined;
  if (!isToken(headers['x-blankwright-token'], token))
    return { status: 403, why: 'open the address that blankwright page printed' };
  if (method === 'POST' && headers['content-type'] !== 'application/json')
    return { status: 415, why: 'only JSON is taken' };
  return undefined;
};

const isToken = (given: string | string[] | undefined, token: string): boolean => {
  if (typeof given !== 'string') return false;
  const [a, b] = [Buffer.from(given), Buffer.from(token)];
  return a.length === b.length && timingSafeEqual(a, b);
};
