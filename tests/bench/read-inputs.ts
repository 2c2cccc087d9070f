import { readInputs } from '../../src/forms/read.ts';
import { nextInputs, template, wholeWay } from './brackets-work.ts';
import { type Answer, compare, timed } from './measure.ts';

/** How long the inputs alone take to read. */
export default (): Answer[] => {
  const read = (): void => {
    if (!readInputs(template, nextInputs()).ok) throw new Error('the inputs were refused');
  };
  return [
    {
      question: 'readInputs alone',
      ...compare(timed(read), timed(wholeWay), 40),
      against: 'inputs to DXF and SVG',
    },
  ];
};
