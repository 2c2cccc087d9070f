import { spawn } from 'node:child_process';

/** The program of each system that opens an address in the user's own browser. */
const OPENERS: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  darwin: ['open'],
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
  linux: ['xdg-open'],
};

/**
 * Opens an address in the browser, where there is a screen to show one on. That there is none, or
 * that it does not start, is no mistake: the address is printed too.
 */
export const openInBrowser = (url: string): void => {
  const [program, ...args] = OPENERS[process.platform] ?? [];
  const hasScreen =
    process.platform !== 'linux' ||
    process.env['DISPLAY'] !== undefined ||
    process.env['WAYLAND_DISPLAY'] !== undefined;
  if (program === undefined || !hasScreen) return;
  const child = spawn(program, [...args, url], { detached: true, stdio: 'ignore' });
  child.on('error', () => undefined);
  child.unref();
};
