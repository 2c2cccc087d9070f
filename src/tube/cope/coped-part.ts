import type { TubeGrade } from '../../model/tube-grade.ts';
import { type TubeBase, tubeMassKg } from '../tube-part.ts';
import { type Coped, copedTube, type CopedMade, mirroredAsk } from './coped-tube.ts';

/** A tube that is coped at one end or at both. */
export interface CopedTube extends TubeBase, Coped {
  readonly kind: 'coped';
}

/** What a coped tube is made of: the same with a grade, by which it has a mass. */
export const copedPart = (grade: TubeGrade, coped: Coped): CopedTube => {
  const { diameterMm, wallMm } = coped.asked.tube;
  return {
    kind: 'coped',
    ...coped,
    grade,
    diameterMm,
    wallMm,
    massKg: tubeMassKg({ grade, diameterMm, wallMm }, coped.meanMm),
  };
};

/** The tube of the other hand, which can be cut wherever this one can. */
export const mirrorCopedTube = (tube: CopedTube): CopedTube => {
  const mirrored: CopedMade = copedTube(mirroredAsk(tube.asked));
  if (!mirrored.ok) throw new Error(`the mirror image is refused: ${mirrored.flaw.kind}`);
  return copedPart(tube.grade, mirrored.coped);
};
