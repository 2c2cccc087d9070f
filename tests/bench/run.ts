/** What the tool that asks the questions needs of this folder; it is bundled beside them. */
export { inOwnProcess } from './own-process.ts';
export { missedOf, tableOf } from './report.ts';
