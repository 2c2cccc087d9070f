import { fields } from '../../src/template.ts';

/** Which way round a wall is rolled. */
export const faceOut = fields.choice({
  about:
    'Which face of the sheet comes to lie outside, as the drawing shows it: the upper one is the face that is seen.',
  choices: ['lower', 'upper'],
  default: 'lower',
});
