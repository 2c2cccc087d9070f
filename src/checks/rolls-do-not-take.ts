import { formerRadiusMm } from '../bending/springback.ts';
import { distance } from '../geometry/vec2.ts';
import { warn } from '../model/finding.ts';
import { whyNotRolled } from '../plan/machines/rolls.ts';
import { capital } from '../text/capital.ts';
import type { Check } from './check.ts';

/** A wall that is rolled all over, and that no rolls of the shop take. */
export const rollsDoNotTake: Check = {
  rule: 'rolls-do-not-take',
  title: 'No rolls of the shop take this wall.',
  severities: ['warn'],
  reason:
    'Sheet too wide, too thick or too tight does not go round the top roll, or comes out wide.',
  source: 'width, least diameter and capacity of the rolls in the shop file',
  measured: 'the wall as it is set in the rolls, before it springs open',
  mend: 'Bump it along its lines, have it rolled elsewhere, or give a larger diameter.',
  run: ({ flat, material, shop }) => {
    const { rollMarks = [], rollSizes, thicknessMm } = flat;
    const { rolls = [] } = shop;
    if (rollSizes === undefined || rolls.length === 0) return [];
    const [insideRadiusMm] = rollSizes.insideRadiusMm;
    const round = {
      material,
      thicknessMm,
      lengthMm: Math.max(...rollMarks.map(({ from, to }) => distance(from, to))),
      toolRadiusMm: formerRadiusMm(material, insideRadiusMm, thicknessMm),
    };
    const reasons = rolls.map((one) => whyNotRolled(one, round));
    if (reasons.includes(undefined)) return [];
    const why = reasons.filter((r) => r !== undefined).join('; ');
    return [
      warn(
        rollsDoNotTake,
        `${capital(why)}: bump it along its lines, or have it rolled elsewhere.`,
      ),
    ];
  },
};
