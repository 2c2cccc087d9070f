import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { EXIT } from '../failure.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { rememberingParts } from '../../use/job/remembering-parts.ts';
import type { RunCommand } from './index.ts';
import { runJobCommand } from './job.ts';
import { runPackCommand } from './pack.ts';

/** The demo's job file, beside the program. */
const JOB = fileURLToPath(new URL('../templates/demo/cart.job.yaml', import.meta.url));

const DEMO_FLAGS = {
  out: { type: 'string', describe: 'Folder to write to; out/ when left out' },
  force: {
    type: 'boolean',
    describe: 'Replace files that were not made by this command, or were changed since',
  },
} as const satisfies FlagSpecs;

/** Folder of the archives for the cutting service. */
const HANDOVER = 'handover';

/**
 * `demo`: the whole job of a vineyard cart, made as `job` makes any, and the archives for a cutting
 * service, packed as `pack` does. JSON: as for `job`.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: 'demo', flags: DEMO_FLAGS, words: 1 });
  if (flags === undefined) return EXIT.made;
  const passed = [
    ...(flags['force'] === true ? ['--force'] : []),
    ...(flags['json'] === true ? ['--json'] : []),
  ];
  const out = textOf(flags, 'out') ?? 'out';
  const make = rememberingParts();
  const code = await runJobCommand(['job', JOB, '--out', out, ...passed], console, make);
  if (code !== EXIT.made) return code;
  return runPackCommand(
    ['pack', JOB, '--out', join(out, HANDOVER), ...(flags['force'] === true ? ['--force'] : [])],
    flags['json'] === true ? { ...console, out: () => undefined } : console,
    make,
  );
};
