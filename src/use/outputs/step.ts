import { writeStep } from '../../solid/step.ts';
import type { OutputSource, Written } from './output.ts';

/**
 * The folded part as a solid with true faces. The part can be cut and folded without this file, so
 * a missing one is no more than a warning.
 */
export async function modelStep({ made: { part, flat, mark } }: OutputSource): Promise<Written> {
  const step = await writeStep(part, flat, mark);
  return step.ok
    ? { contents: step.text, findings: step.remarks }
    : { findings: [{ ...step.finding, severity: 'warn' }] };
}
