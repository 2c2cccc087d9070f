import { makeParts } from '../../src/use/make/make-parts.ts';
import { writeDxf } from '../../src/dxf/write/dxf.ts';
import { nextInputs, OPTIONS, template, wholeWay } from './brackets-work.ts';
import { type Answer, compare, timed } from './measure.ts';

/** How long writing the DXF alone takes, in both dialects. */
export default (): Answer[] => {
  const made = makeParts(template, nextInputs(), OPTIONS);
  const drawing = made.ok ? made.parts[0]?.drawing : undefined;
  if (drawing === undefined) throw new Error('the bracket was not made');
  return (['r2000', 'r12'] as const).map((version) => ({
    question: `writeDxf alone, ${version}`,
    ...compare(
      timed(() => void writeDxf(drawing, { version, cutOnly: false })),
      timed(wholeWay),
      40,
    ),
    against: 'inputs to DXF and SVG',
  }));
};
