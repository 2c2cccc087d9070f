import { middleOf } from '../../src/statistics/middle.ts';
import { drawn, planned, wholeWay, withPapers } from './brackets-work.ts';
import { type Answer, eachOf, started, type Took, warming } from './measure.ts';
import { inOwnProcess } from './own-process.ts';
import { comparedOf } from './report.ts';
import { copePattern, hoop } from './tube-work.ts';

interface Work {
  readonly run: () => unknown;
  /** How many of the first calls are told together, where that is asked for. */
  readonly early?: number;
}

const WORKS = new Map<string, Work>([
  ['bracket, inputs to DXF text', { run: drawn, early: 100 }],
  ['bracket, checked and proved, not planned', { run: wholeWay }],
  ['bracket, planned', { run: planned }],
  ['bracket, planned, with card template and job sheet', { run: withPapers }],
  ['hoop, inputs to bend sheet and its proof', { run: hoop }],
  ['cope, inputs to its pattern', { run: copePattern }],
]);

interface Calls {
  readonly first: Took;
  /** Each of the first calls, the very first among them. */
  readonly early: Took;
  readonly warm: Took;
}

/**
 * Processes for each question, for a process has one first call; and how often each of them is read
 * when it is warm.
 */
const PROCESSES = 3;
const READINGS = 7;
const READING_MS = 40;

/**
 * The first call of a process beside its own middle when it is warm. Modules are loaded by then;
 * what loading takes shows in the questions about the command.
 */
export default (): Answer[] =>
  [...WORKS].flatMap(([name, { early: count = 1 }]) => {
    const all = Array.from(
      { length: PROCESSES },
      () => inOwnProcess(import.meta.url, 'calls', [name]) as Calls,
    );
    const warmMs = middleOf(all.map(({ warm }) => warm.wallMs));
    const answer = (when: string, work: (calls: Calls) => Took): Answer => ({
      question: `${name}, ${when}`,
      ...comparedOf(all.map((calls) => ({ work: work(calls), bare: calls.warm }))),
      against: `the same, warm, ${warmMs.toFixed(3)} ms`,
    });
    return [
      answer('first of a process', ({ first }) => first),
      ...(count === 1 ? [] : [answer(`each of the first ${count}`, ({ early }) => early)]),
    ];
  });

/** What the calls of this process take; of use only in a process of its own. */
export const calls = async (name: string): Promise<Calls> => {
  const { run, early = 1 } = WORKS.get(name) as Work;
  const first = await round(run, 1);
  const others = await round(run, early - 1);
  const { goesOn, callsIn } = warming();
  while (goesOn()) await run();
  const count = callsIn(READING_MS);
  const readings: Took[] = [];
  for (let i = 0; i < READINGS; i += 1) readings.push(eachOf(await round(run, count), count));
  return {
    first,
    early: eachOf(
      { wallMs: first.wallMs + others.wallMs, cpuMs: first.cpuMs + others.cpuMs },
      early,
    ),
    warm: {
      wallMs: middleOf(readings.map(({ wallMs }) => wallMs)),
      cpuMs: middleOf(readings.map(({ cpuMs }) => cpuMs)),
    },
  };
};

const round = async (run: () => unknown, count: number): Promise<Took> => {
  const stop = started();
  for (let i = 0; i < count; i += 1) await run();
  return stop();
};
