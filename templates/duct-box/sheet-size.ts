import { fields } from '../../src/template.ts';

/** The sheet that a duct is cut from, for whoever has no stock in the shop file. */
export const sheetSize = {
  sheetLength: fields.length({
    about: 'Length of the sheet that blanks are cut from.',
    min: 50,
    max: 10000,
    default: 2500,
    anchor: { kind: 'beside', what: 'the sheet that blanks are cut from' },
  }),
  sheetWidth: fields.length({
    about: 'Width of that sheet.',
    min: 50,
    max: 5000,
    default: 1250,
    anchor: { kind: 'beside', what: 'the sheet that blanks are cut from' },
  }),
} as const;
