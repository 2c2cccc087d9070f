// Ends a test run with a plain "N passed, N failed", taken from the JSON report of vitest. Fails
// when a test failed, was skipped, or when there was none: a run that checked nothing must not look
// like one that found nothing.
import { readFileSync } from 'node:fs';

const text = readFileSync(process.argv[2], 'utf8');
if (text === '') {
  console.log('The test run left no report.');
  console.log('0 passed, 1 failed');
  process.exit(1);
}
const report = JSON.parse(text);
const { numPassedTests: passed, numPendingTests: skipped, numTodoTests: todo } = report;
const brokenFiles = report.testResults.filter(
  (file) => file.status === 'failed' && file.assertionResults.every((t) => t.status !== 'failed'),
);
for (const { name } of brokenFiles) console.log(`could not run: ${name}`);
const unrun = skipped + todo;
if (unrun > 0) console.log(`${unrun} not run`);
const failed = report.numFailedTests + brokenFiles.length;
console.log(`${passed} passed, ${failed} failed`);
if (!report.success || failed > 0 || unrun > 0 || passed === 0) process.exitCode = 1;
