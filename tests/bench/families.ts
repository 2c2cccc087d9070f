import { makeParts } from '../../src/use/make/make-parts.ts';
import type { Template } from '../../src/forms/template.ts';
import { FAMILIES } from '../../templates/index.ts';
import { OPTIONS, template, wholeWay } from './brackets-work.ts';
import { type Answer, compare, eachOf, type Timed, timed } from './measure.ts';

/**
 * What a blank of each family takes, its first example, from inputs to DXF and SVG, against the
 * angle bracket.
 */
export default async (): Promise<Answer[]> => {
  const bracket = timed(wholeWay);
  const answers: Answer[] = [];
  for (const [name, load] of FAMILIES) {
    if (name === template.family) continue;
    answers.push({
      question: `a blank of ${name}`,
      ...compare(eachBlank((await load()).default), bracket, 10),
      against: 'an angle bracket with five holes',
    });
  }
  return answers;
};

const eachBlank = (family: Template): Timed => {
  const inputs = family.examples[0]?.inputs ?? {};
  const make = (): number => {
    const made = makeParts(family, inputs, OPTIONS);
    const files = made.ok ? made.parts.flatMap((p) => p.files()) : [];
    if (files.length === 0) throw new Error(`${family.family} was not made`);
    return files.length / 2;
  };
  const blanks = make();
  const all = timed(() => void make());
  return () => eachOf(all(), blanks);
};
