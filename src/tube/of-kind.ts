import type { BendSheetResult, CopeResult, TubeResult } from '../contract/tube.ts';
import { type BentTube, mirrorBentTube } from './bent-tube.ts';
import { type CopedTube, mirrorCopedTube } from './cope/coped-part.ts';
import { curveOf } from './cope/cope.ts';
import type { CopedEnd } from './cope/coped-tube.ts';
import type { TubePart } from './tube-part.ts';

/** The tube of the other hand. */
export const mirrorTube = (tube: TubePart): TubePart =>
  tube.kind === 'bent' ? mirrorBentTube(tube) : mirrorCopedTube(tube);

/** What programs are told of a tube beside the head of its part. */
export interface ToldTube {
  readonly tube: TubeResult;
  readonly bendSheet?: BendSheetResult;
  readonly cope?: CopeResult;
  readonly otherCope?: CopeResult;
}

export const tubeTold = (tube: TubePart): ToldTube =>
  tube.kind === 'bent' ? bentTold(tube) : copedTold(tube);

const bentTold = (part: BentTube): ToldTube => {
  const { sheet, steps, asked, points, errors } = part;
  return {
    tube: {
      cutLengthMm: part.cutLengthMm,
      diameterMm: part.diameterMm,
      wallMm: part.wallMm,
      bends: sheet.bends.map(({ angleDeg, rotateDeg, startMm, pullToDeg, radiusMm }) => ({
        angleDeg,
        rotateDeg,
        startMm,
        pullToDeg,
        radiusMm,
      })),
      endsMm: [points[0] ?? [0, 0, 0], points.at(-1) ?? [0, 0, 0]],
    },
    bendSheet: {
      straightsMm: sheet.straightsMm,
      finishedMm: sheet.finishedMm,
      wasteMm: { lead: sheet.waste.leadMm, tail: sheet.waste.tailMm },
      massKg: part.massKg,
      steps: steps.map(({ bend, clampAt, endForEnd, markMm, turnDeg, checkMm }) => ({
        bend: bend + 1,
        clampAt,
        endForEnd,
        markMm,
        turnDeg,
        checkMm,
      })),
      bender: asked.bending.bender ?? null,
      springback: asked.bending.isMeasured ? 'measured' : 'guessed',
      proofMm: part.proofMm,
      endLikelyOffMm: errors.likelyMm,
    },
  };
};

/** How closely the curve of a cope is told, degrees. */
const CURVE_STEP_DEG = 1;

const copeTold = ({ cope, wrap }: CopedEnd): CopeResult => ({
  curve: curveOf(cope.fitMm, CURVE_STEP_DEG),
  node: wrap.edgeMm,
  wrapMm: wrap.lengthMm,
});

const copedTold = ({ cutLengthMm, diameterMm, wallMm, asked, ends }: CopedTube): ToldTube => {
  const [first, second] = ends as readonly [CopedEnd, CopedEnd?];
  return {
    // Its nodes lie on its axis, the first one at the origin.
    tube: {
      cutLengthMm,
      diameterMm,
      wallMm,
      bends: [],
      endsMm: [
        [0, 0, 0],
        [0, 0, asked.lengthMm],
      ],
    },
    cope: copeTold(first),
    ...(second !== undefined && { otherCope: copeTold(second) }),
  };
};
