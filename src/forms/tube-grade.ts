import { findTubeGrade, TUBE_GRADES } from '../data/tube-grades.ts';
import type { TubeGrade } from '../model/tube-grade.ts';
import { SCALAR } from './accepts.ts';
import { type Field, makeField } from './field.ts';

/** The tube's own `material`: its grade and temper. */
export const tubeGrade = ({ default: usual }: { readonly default: string }): Field<TubeGrade> =>
  makeField(
    {
      kind: 'material',
      about: 'The tube that it is made of, with its temper.',
      allowed: `a grade of tube: ${TUBE_GRADES.map(({ id }) => id).join(', ')}`,
      default: usual,
      example: '6060-t4',
    },
    SCALAR,
    (given) => {
      const found = findTubeGrade(String(given));
      return found === undefined ? { ok: false } : { ok: true, value: found };
    },
  );
