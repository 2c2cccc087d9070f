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

export const template = angle;

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

/** The whole way from inputs to DXF and SVG text of one bracket, checked and proved. */
export const wholeWay = (): void => {
  const made = makeParts(template, nextInputs(), OPTIONS);
  if (!made.ok || made.parts.some((p) => p.files().length !== 2))
    throw new Error('the bracket was not made');
};
