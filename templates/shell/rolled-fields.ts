import { fields } from '../../src/template.ts';

/** Which way round a wall is rolled. */
export const faceOut = fields.choice({
  about:
    'Which face of the sheet comes to lie outside, as the drawing shows it: the upper one is the face that is seen.',
  choices: ['lower', 'upper'],
  default: 'lower',
});

/** Some sheets are shorter than those that the shop file tells of. */
export const sheetLength = fields.optionalLength({
  about: 'Longest blank that the sheets allow.',
  min: 50,
  max: 20_000,
  example: 2500,
  otherwise: 'it is not asked; the sheets of the shop are',
  anchor: { kind: 'blank' },
});
