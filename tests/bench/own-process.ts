import { spawnSync } from 'node:child_process';

/** What an exported function of a bundled file answers in a process of its own. */
export const inOwnProcess = (
  url: string,
  name: string,
  given: readonly (number | string)[],
): unknown => {
  const code = `import(${JSON.stringify(url)}).then(async (m) => process.stdout.write(JSON.stringify(await m[${JSON.stringify(name)}](...${JSON.stringify(given)}))))`;
  const { status, stdout, stderr } = spawnSync(process.execPath, ['-e', code], {
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  if (status !== 0) throw new Error(`${url} failed:\n${stderr}`);
  return JSON.parse(stdout);
};
