import fc from 'fast-check';

// The same cases at every run, so that a change is judged by what it changes; `npm run fuzz` looks
// for new ones.
if (process.env['FUZZ_RUNS'] === undefined) fc.configureGlobal({ seed: 20261125 });

// Each file that asks a solid kernel has one of its own (`solid.ts`).
(globalThis as { kernelOfFile?: unknown }).kernelOfFile = undefined;
