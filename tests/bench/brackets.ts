import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { drawBlank } from '../../src/paper/draw/blank.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { wholeBuilt } from '../../src/forms/built.ts';
import { readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { askedOf } from '../../src/measure/asked-part.ts';
import { proveDxf } from '../../src/proof/proof.ts';
import { writeDxf } from '../../src/dxf/write/dxf.ts';
import { nextInputs, OPTIONS, template, wholeWay } from './brackets-work.ts';
import { type Answer, compare, timed } from './measure.ts';

const NOTES = { title: 'bracket', lines: ['s275 3 mm, 1 off'], mark: 'bracket', remarks: [] };

const family: Template = template;

/** From inputs to DXF text, and nothing else. */
const drawn = () => {
  const read = readInputs(family, nextInputs());
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { part } = wholeBuilt(family.build(read.values), read.values);
  if (part === undefined) throw new Error('the bracket cannot be built');
  const flat = flatten(part, read.values.rule);
  return {
    part,
    flat,
    dxf: writeDxf(drawBlank(flat, NOTES), { version: 'r2000', cutOnly: false }),
  };
};

const proved = (): void => {
  const { part, flat, dxf } = drawn();
  const answer = proveDxf(dxf, askedOf(part, flat, 0));
  if (!answer.ok || answer.proof.worstMm > 0.01) throw new Error('the bracket is not proved');
};

/** As it is made for a shop with folding machines. */
const planned = (): void => {
  const made = makeParts(family, nextInputs(), { ...OPTIONS, shop: DEFAULT_SHOP });
  if (
    !made.ok ||
    made.parts.some((p) => p.result.foldPlan?.feasible !== true || p.files().length !== 2)
  )
    throw new Error('the bracket was not planned');
};

/** How many angle brackets with five holes a second, on one core, from inputs to texts of files. */
export default (): Answer[] => {
  const [drawing, whole] = [timed(drawn), timed(wholeWay)];
  return [
    {
      question: 'inputs to DXF text',
      ...compare(drawing, whole, 40),
      against: 'the whole way, checked and proved',
      aim: 'under 0.2 ms',
    },
    {
      question: 'inputs to DXF text, and its proof',
      ...compare(timed(proved), drawing, 40),
      against: 'inputs to DXF text',
      aim: 'at most 3',
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
  ];
};
