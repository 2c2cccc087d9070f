import type { Template } from '../../forms/template.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { makeParts } from '../../use/make/make-parts.ts';
import { foldedPicture } from '../../use/show/part-pictures.ts';
import { firstTube } from './tube-answers.ts';
import type { FamilyAnswer } from './questions.ts';
import { THUMB } from './screen-sizes.ts';

export const familyAnswer = (template: Template): FamilyAnswer => ({
  family: template.family,
  summary: template.summary,
  example: template.examples[0]?.inputs ?? {},
});

/** The first example of a family, folded. */
export const familyPicture = (template: Template): string => {
  const made = makeParts(template, template.examples[0]?.inputs ?? {}, { foldAt: 'service' });
  if (template.stock === 'tube') return firstTube(made, `family-${template.family}`);
  const picture = made.ok
    ? made.parts
        .map((one) => foldedPicture(one, THUMB, { isBare: true }))
        .find((p) => p !== undefined)
    : undefined;
  return picture === undefined ? '' : pictureSvg(picture, `family-${template.family}`);
};
