import { list, number, object, oneOf, optional, pair, text } from './shape.ts';

const said = optional(text);
const markLine = object(
  { from: pair, to: pair, called: said, turnedOver: said },
  'a line { from, to }',
);

/** What is formed out of a panel, as a template gives it. */
export const formed = object(
  {
    called: text,
    inputs: list(text, 'names of inputs'),
    zone: list(pair, 'the corners of what is formed'),
    proudMm: number,
    direction: oneOf('up', 'down'),
    marks: list(markLine, 'lines that are marked'),
  },
  'a louvre or a bead { called, inputs, zone, proudMm, direction, marks }',
);
