import type { Rule } from './rule.ts';

const LEAST_SQUARES = 'adjustment by least squares, as in textbooks on surveying';

/** Rules about points that are found from distances between them. */
export const SURVEY_RULES = {
  'survey-contradiction': {
    severities: ['stop'],
    title: 'A distance is longer than the way round through other points.',
    reason: 'One of the readings is wrong, and every point would be.',
    measured: 'the distance against the sum of the shortest way round',
    mend: 'Measure it again, and those of the way round.',
    source: 'plain geometry: no straight line is longer than a way round',
  },
  'survey-loose': {
    severities: ['stop'],
    title: 'The distances do not fix the figure.',
    reason: 'The points can be moved without changing any distance: the part is not defined.',
    measured: 'how many distances there are, and between which points',
    mend: 'Measure the distances that the message names.',
    source: 'plain geometry: a point is fixed by two distances from fixed points',
  },
  'survey-suspect': {
    severities: ['warn'],
    title: 'A distance does not agree with the others.',
    reason: 'A misread tape moves holes by as much as it was misread.',
    measured: 'how far the residuals fall when the distance is left out',
    mend: 'Measure it again.',
    source: `${LEAST_SQUARES}; the limits from memory`,
  },
  'survey-weak': {
    severities: ['warn'],
    title: 'A point lies nearly in line with those that it is measured from.',
    reason: 'A millimetre on the tape moves it by many.',
    measured: 'by how much the point moves for 1 mm of tape',
    mend: 'Measure it from a point well off that line as well.',
    source: LEAST_SQUARES,
  },
  'survey-side': {
    severities: ['warn'],
    title: 'A statement of left or right does not agree with the distances.',
    reason: 'Part of the figure comes out mirrored, and holes lie on the wrong side.',
    measured: 'on which side of the line the distances put the point',
    mend: 'Check the distances, or write the other side.',
    source: 'plain geometry',
  },
  'survey-other-figure': {
    severities: ['warn'],
    title: 'Another figure fits the same distances as well.',
    reason: 'The points may be drawn right by the tape and still be wrong.',
    measured: 'how well other figures fit the distances',
    mend: 'Measure one more, between points that are far apart.',
    source: LEAST_SQUARES,
  },
  'survey-mirror': {
    severities: ['note'],
    title: 'The distances allow the mirror image too.',
    reason: 'Distances alone do not tell left from right.',
    measured: 'which side was stated, and which fits better',
    mend: 'Write left or right where the drawing has it wrong.',
    source: 'plain geometry',
  },
  'survey-fit': {
    severities: ['note'],
    title: 'How well the distances agree, and how many are spare.',
    reason: 'Without a spare one nothing shows a slip.',
    measured: 'residuals of the distances, root mean square and largest',
    mend: 'Measure one more where none is spare.',
    source: LEAST_SQUARES,
  },
} satisfies Record<string, Rule>;
