import { makeParts } from '../../src/job.ts';
import { writeDxf } from '../../src/write/dxf.ts';
import { nextInputs, OPTIONS, template, wholeWay } from './brackets-work.ts';
import { type Answer, compare, timed } from './measure.ts';

/** How many brackets a second, from inputs to DXF text, in one process. */
export default (): Answer[] => {
  const toDxf = (): void => {
    const made = makeParts(template, nextInputs(), OPTIONS);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    for (const { drawing } of made.parts) {
      if (drawing === undefined || writeDxf(drawing, { version: 'r2000', cutOnly: false }) === '') throw new Error('no drawing');
    }
  };
  return [
    {
      question: 'inputs to DXF text, one angle bracket with five holes',
      ...compare(timed(toDxf), timed(wholeWay), 40),
      against: 'the same with the SVG beside it',
      aim: 'at least 2000 a second',
    },
  ];
};
