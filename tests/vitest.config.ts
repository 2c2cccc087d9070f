import { defineConfig } from 'vitest/config';
import { IS_FULL } from './helpers/extent.ts';

/**
 * What breaks processes and disks, process after process: nothing else than what it is about changes
 * it, and it takes half a minute of two cores. The short extent runs it where it is asked for.
 */
const BREAKING = [
  'faults/two-runs',
  'faults/in-the-way',
  'faults/killed',
  'faults/take',
  'faults/full-disk',
  'cli/built',
];
const isAskedFor = process.argv.some((arg) => /faults|built/.test(arg));

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: IS_FULL || isAskedFor ? [] : BREAKING.map((name) => `tests/${name}.test.ts`),
    // Tests share no state, and starting a worker for each file costs more than the tests
    // themselves.
    isolate: false,
    globalSetup: ['tests/helpers/build-once.ts'],
    // Commands in tests write to a wide terminal, so that a sentence stands on one line; that they keep
    // to a narrow one is a test of its own (tests/cli/eighty-columns.test.ts).
    env: { COLUMNS: '2000' },
    setupFiles: ['tests/helpers/seed.ts'],
    // Left to itself one core stays idle, and on two cores that is half of them.
    maxWorkers: '100%',
    // Most of what a test makes is gone at once. Collected in larger pieces it takes a tenth less.
    execArgv: ['--max-semi-space-size=64'],
    // Only what hangs for good is ended: how long a test takes is a matter of what else the machine does.
    testTimeout: 600_000,
    hookTimeout: 600_000,
  },
});
