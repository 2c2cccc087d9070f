import { DEFAULT_SHOP } from '../data/shop-default.ts';
import type { InputProblem } from '../forms/problem.ts';
import { defineTemplate, type Example, type Template } from '../forms/template.ts';
import { templateFlaws } from '../forms/template-flaws.ts';
import { makeParts } from './make/make-parts.ts';

/**
 * Everything that is wrong with a part family of one's own, each problem under the name of its
 * field: whether it is a template, whether its inputs and defaults are possible, and whether every
 * example can be made with all its files. The list is empty for a template that works. An exception
 * thrown by `build` is told under the example that raised it.
 */
export const checkTemplate = (template: unknown): readonly InputProblem[] => {
  const flaws = templateFlaws(template);
  if (flaws.length > 0) return flaws;
  const whole = defineTemplate(template as Template);
  return whole.examples.flatMap((example, i) =>
    exampleFlaws(whole, example, `template.examples[${i}]`),
  );
};

const exampleFlaws = (template: Template, { inputs }: Example, at: string): InputProblem[] => {
  try {
    // Folding depends on the shop and takes the most time, so it is left out.
    const made = makeParts(template, inputs, { shop: { ...DEFAULT_SHOP, machines: [] } });
    if (!made.ok)
      return made.problems.map((p) => ({
        ...p,
        input: p.input.startsWith('template') ? p.input : `${at}.inputs.${p.input}`,
      }));
    const stops = made.parts.flatMap(({ result }) =>
      result.findings
        .filter((f) => f.severity === 'stop')
        .map((f) => `${result.name}, which is stopped: ${f.message}`),
    );
    return [...new Set(stops)].map((given) => ({
      input: at,
      given,
      allowed: 'inputs that make a part',
    }));
  } catch (error) {
    return [
      {
        input: 'template.build',
        given: `an error: ${error instanceof Error ? error.message : String(error)}`,
        allowed: 'a part, pieces or findings',
        mend: `see ${at}`,
      },
    ];
  }
};
