// Builds, then runs the demo with its page in this very process, so that whoever started it ends it
// with one signal: `npm start`, or `npm start -- --no-page`.
import { resolve } from 'node:path';

const given = process.argv.slice(2);
// Type declarations are for programs that use the library, and take most of the time of a build.
process.argv = [...process.argv.slice(0, 2), '--no-types'];
await import('./build.mjs');
process.argv = [process.argv[0], resolve('dist/blankwright.cjs'), 'demo', ...given];
await import('../../dist/blankwright.cjs');
