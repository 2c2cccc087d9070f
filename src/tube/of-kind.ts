import type { BendSheetResult, TubeResult } from '../contract/tube.ts';
import { type BentTube, mirrorBentTube } from './bent-tube.ts';
import type { TubePart } from './tube-part.ts';

/** The tube of the other hand. */
export const mirrorTube = (tube: TubePart): TubePart => mirrorBentTube(tube);

/** What programs are told of a tube beside the head of its part. */
export interface ToldTube {
  readonly tube: TubeResult;
  readonly bendSheet: BendSheetResult;
}

export const tubeTold = (tube: TubePart): ToldTube => bentTold(tube);

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
