import { processConsole } from './console.ts';
import { run } from './main.ts';

process.exitCode = await run(process.argv.slice(2), processConsole());
