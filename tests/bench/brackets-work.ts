import { drawBlank } from '../../src/paper/draw/blank.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { wholeBuilt } from '../../src/forms/built.ts';
import { readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import { askedOf } from '../../src/measure/asked-part.ts';
import { proveDxf } from '../../src/proof/proof.ts';
import { writeDxf } from '../../src/dxf/write/dxf.ts';
import { makeFiles } from '../../src/use/make/make-files.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts, type MakeOptions } from '../../src/use/make/make-parts.ts';
import angle from '../../templates/bracket-angle/index.ts';

/**
 * The work the questions share: an angle bracket with five holes, a little different each time. Not
 * planned, which would take nearly all of the time and has a question of its own.
 */
export const OPTIONS: MakeOptions = {
  cutOnly: false,
  dxfVersion: 'r2000',
  shop: { ...DEFAULT_SHOP, machines: [] },
};

export const template: Template = angle;

let counter = 0;

/**
 * Inputs as a file gives them. No two calls in a row give the same, so that nothing can be
 * remembered from the last.
 */
export const nextInputs = (): Record<string, unknown> => {
  counter = (counter + 1) % 1000;
  return {
    name: `bracket-${counter}`,
    legA: 60 + counter / 100,
    legB: '2 1/2"',
    width: 80 + counter / 50,
    material: 's275',
    thickness: 3,
    radius: 3,
    cornerRadius: 5,
    holesA: '35,20,M8; 35,60,M8',
    holesB: '22,20,6.6; 22,40,8x20; 22,60,6.6',
  };
};

const NOTES = { title: 'bracket', lines: ['s275 3 mm, 1 off'], mark: 'bracket', remarks: [] };

/** From inputs to DXF text, and nothing else. */
export const drawn = () => {
  const read = readInputs(template, nextInputs());
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { part } = wholeBuilt(template.build(read.values), read.values);
  if (part === undefined) throw new Error('the bracket cannot be built');
  const flat = flatten(part, read.values.rule);
  return {
    part,
    flat,
    dxf: writeDxf(drawBlank(flat, NOTES), { version: 'r2000', cutOnly: false }),
  };
};

export const proved = (): void => {
  const { part, flat, dxf } = drawn();
  const answer = proveDxf(dxf, askedOf(part, flat, 0));
  if (!answer.ok || answer.proof.worstMm > 0.01) throw new Error('the bracket is not proved');
};

/** The whole way from inputs to DXF and SVG text of one bracket, checked and proved. */
export const wholeWay = (): void => {
  const made = makeParts(template, nextInputs(), OPTIONS);
  if (!made.ok || made.parts.some((p) => p.files().length !== 2))
    throw new Error('the bracket was not made');
};

/** As it is made for a shop with folding machines. */
export const planned = (): void => {
  const made = makeParts(template, nextInputs(), { ...OPTIONS, shop: DEFAULT_SHOP });
  if (
    !made.ok ||
    made.parts.some((p) => p.result.foldPlan?.feasible !== true || p.files().length !== 2)
  )
    throw new Error('the bracket was not planned');
};

/** Planned too, with its card template and its job sheet. */
export const withPapers = async (): Promise<void> => {
  const made = await makeFiles({
    template,
    inputs: nextInputs(),
    outputs: ['card', 'sheet'],
    options: { ...OPTIONS, shop: DEFAULT_SHOP },
  });
  if (!made.ok || made.files.length < 5) throw new Error('the papers were not made');
};
