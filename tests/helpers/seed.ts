import fc from 'fast-check';
import { IS_FULL } from './extent.ts';

// The same cases at every run, so that a change is judged by what it changes; `npm run fuzz` looks
// for new ones.
if (process.env['FUZZ_RUNS'] === undefined) fc.configureGlobal({ seed: 20261125 });

// In full each file that asks a solid kernel has one of its own (`solid.ts`); what the short extent
// makes is a tenth of that and fits into one.
if (IS_FULL) (globalThis as { kernelOfFile?: unknown }).kernelOfFile = undefined;
