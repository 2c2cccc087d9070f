import { drawn, planned, proved, wholeWay, withPapers } from './brackets-work.ts';
import { type Answer, compare, once, started, timed, warming } from './measure.ts';
import { comparedOf, type Pair } from './report.ts';

/** How many angle brackets with five holes a second, on one core, from inputs to texts of files. */
export default async (): Promise<Answer[]> => {
  const [drawing, whole] = [timed(drawn), timed(wholeWay)];
  return [
    {
      question: 'inputs to DXF text',
      ...compare(drawing, whole, 40),
      against: 'the whole way, checked and proved',
      aim: { on: 'cpuMs', atMost: 0.2 },
    },
    {
      question: 'inputs to DXF text, and its proof',
      ...compare(timed(proved), drawing, 40),
      against: 'inputs to DXF text',
      aim: { on: 'cpuRatio', atMost: 3 },
    },
    {
      question: 'the whole way to DXF and SVG, checked and proved',
      ...compare(whole, drawing, 40),
      against: 'inputs to DXF text',
    },
    {
      question: 'the same, and its folding planned',
      ...compare(timed(planned), whole, 20),
      against: 'the same, not planned',
    },
    {
      question: 'the same, with card template and job sheet',
      ...comparedOf(await papersAndWithout()),
      against: 'the same, planned, without papers',
    },
  ];
};

const PAPERS = 20;

/** Papers load what they need as they go, and have to be waited for. */
const papersAndWithout = async (): Promise<Pair[]> => {
  const without = once(planned);
  const { goesOn } = warming();
  while (goesOn()) await withPapers();
  const pairs: Pair[] = [];
  for (let i = 0; i < PAPERS; i += 1) {
    const bare = without();
    const stop = started();
    await withPapers();
    pairs.push({ work: stop(), bare });
  }
  return pairs;
};
