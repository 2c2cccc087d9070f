import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { readCase } from '../../src/plan/of-panels/panels.ts';
import { planFolds } from '../../src/plan/search/plan.ts';
import { corrugated, flappedTray, type MadeCase, tooDeepChannel } from '../plan/parts.ts';
import { wholeWay } from './brackets-work.ts';
import { type Answer, compare, type Timed, timed } from './measure.ts';

/**
 * How the time of a fold plan grows from 4 to 20 folds: to the cheapest order, and to the proof
 * that there is none.
 */
export default (): Answer[] => {
  const bare = timed(wholeWay);
  const question = (name: string, verdict: string, given: MadeCase): Answer => ({
    question: `fold plan, ${name}, ${given.part.bends.length} folds`,
    ...compare(planned(given, verdict), bare, 3),
    against: 'inputs to DXF and SVG, angle bracket',
    ...(given.part.bends.length === 12 && { aim: 'under 1000 ms' }),
    ...(given.part.bends.length === 20 && { aim: 'under 10 000 ms' }),
  });
  return [4, 8, 12, 16, 20].flatMap((folds) => [
    question('tray of flaps', 'feasible', flappedTray(BOX_PAN.id, folds)),
    question('corrugated', 'feasible', corrugated(BOX_PAN.id, folds)),
    question('no order', 'impossible', tooDeepChannel(BOX_PAN.id, folds)),
  ]);
};

/** Once: the search remembers nothing from one part to the next. */
const planned =
  (given: MadeCase, verdict: string): Timed =>
  () => {
    const start = performance.now();
    const read = readCase(given);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const answer = planFolds(read.net, read.machine);
    if (answer.verdict !== verdict)
      throw new Error(`${given.part.bends.length} folds: ${answer.verdict}`);
    return performance.now() - start;
  };
