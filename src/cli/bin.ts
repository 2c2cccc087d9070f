import { processConsole } from './console.ts';
import { run } from './main.ts';

void run(process.argv.slice(2), processConsole()).then((code) => {
  process.exitCode = code;
});
