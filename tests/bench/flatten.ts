import { flatten } from '../../src/flatten/flatten.ts';
import { wholeBuilt } from '../../src/forms/built.ts';
import { readInputs } from '../../src/forms/read.ts';
import gusset from '../../templates/bracket-gusset/index.ts';
import type { Template } from '../../src/forms/template.ts';
import { nextInputs, template, wholeWay } from './brackets-work.ts';
import { type Answer, compare, timed } from './measure.ts';

/**
 * How long flattening alone takes: a bracket with one fold, and one with three that meet in
 * corners.
 */
export default (): Answer[] => {
  const question = (name: string, family: Template, inputs: Record<string, unknown>): Answer => {
    const read = readInputs(family, inputs);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const { part } = wholeBuilt(family.build(read.values), read.values);
    if (part === undefined) throw new Error(`${name} cannot be built`);
    const work = (): void => {
      if (flatten(part, read.values.rule).outline.length === 0)
        throw new Error(`${name} was not flattened`);
    };
    return {
      question: `flatten alone, ${name}`,
      ...compare(timed(work), timed(wholeWay), 40),
      against: 'inputs to DXF and SVG, angle bracket',
    };
  };
  const shelf = gusset.examples[0]?.inputs ?? {};
  return [
    question('angle bracket', template, nextInputs()),
    question('gusset bracket', gusset, shelf),
  ];
};
