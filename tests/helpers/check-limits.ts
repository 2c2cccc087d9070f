import { describe, expect, test } from 'vitest';
import { describeInputs, readInputs } from '../../src/forms/read.ts';
import { loadFamily } from './check-template.ts';

/** Sets every input of a family's own, one by one, to its limits and just past them. */
export function checkLimits(family: string, inputs: Readonly<Record<string, unknown>>): void {
  describe(`${family}, limits`, async () => {
    const template = await loadFamily(family);
    const limited = describeInputs(template).filter(
      (input) => !input.common && input.minimum !== undefined && input.maximum !== undefined,
    );
    test.each(
      limited.map(
        (input) =>
          [
            input.name,
            input.minimum ?? 0,
            input.maximum ?? 0,
            input.kind === 'count' ? 1 : 0.01,
          ] as const,
      ),
    )('%s takes %d to %d and no more', (name, least, most, step) => {
      const refused = (value: number): string[] => {
        const read = readInputs(template, { ...inputs, [name]: value });
        return read.ok ? [] : read.problems.map((problem) => problem.input);
      };
      expect([least, most].map(refused)).toEqual([[], []]);
      expect([least - step, most + step].map(refused)).toEqual([[name], [name]]);
    });
  });
}
