import type { FlatPattern } from '../model/flat.ts';
import { posePoint, poseVector } from '../geometry/pose.ts';
import { dot3, length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import { grouped } from '../text/grouped.ts';
import { type FoldedFile, regionOf } from '../measure/folded-file.ts';
import { type BoltHole, boltHoles, playMm } from './bolt-holes.ts';
import { foldWithErrors, type BlankToFold } from './fold-with-errors.ts';
import type { FoldCause } from './causes.ts';
import { chanceOf } from './chance.ts';
import { GOOD_CHANCE, mendOf } from './mend.ts';
import { type HoleDoubts, type Pattern, patternOf } from './pattern.ts';
import type { BoltFit } from '../contract/fit.ts';

/** A pattern of more holes than this is a perforation, not something to bolt on. */
const MOST_HOLES = 40;

/** How well bolt holes that meet one other part fit, when all are bolted at once. */
export const fitBolts = (
  folding: BlankToFold,
  causes: readonly FoldCause[],
  flat: FlatPattern,
  doubts: HoleDoubts,
): BoltFit[] => {
  const body = foldWithErrors(folding, {});
  return boltGroups(body, flat).flatMap((group): BoltFit[] => {
    if (group.length < 2 || group.length > MOST_HOLES) return [];
    const pattern = patternOf(body, causes, group, faceOf(flat), doubts);
    return pattern === undefined ? [] : [boltFit(pattern, flat)];
  });
};

/** Normals, and places along them in mm, that differ by less belong to one plane. */
const SAME_PLANE = 1e-6;

/**
 * Bolt holes grouped by what they meet. Holes that do not state it meet one part if the faces that
 * lie against it lie in one plane and face one way, as the feet of a hat section do.
 */
export const boltGroups = (body: FoldedFile, flat: FlatPattern): BoltHole[][] => {
  const planes: { readonly normal: Vec3; readonly off: number }[] = [];
  const planeOf = ({ panel }: BoltHole): number => {
    const region = regionOf(body, panel);
    const pose = region === undefined ? undefined : body.folded.poses[region];
    if (pose === undefined) return -1;
    const normal = poseVector(pose, [0, 0, 1]);
    const off = dot3(normal, posePoint(pose, [0, 0, faceOf(flat)]));
    const known = planes.findIndex(
      (p) => length3(sub3(p.normal, normal)) < SAME_PLANE && Math.abs(p.off - off) < SAME_PLANE,
    );
    return known >= 0 ? known : planes.push({ normal, off }) - 1;
  };
  return grouped(boltHoles(flat), (hole) =>
    hole.meets === undefined ? `plane ${planeOf(hole)}` : `part ${hole.meets}`,
  );
};

/** Height of the face that lies against something: the outside of the part's folds. */
const faceOf = ({ bends, thicknessMm }: FlatPattern): number =>
  bends.length > 0 && bends.every((b) => b.direction === 'down') ? thicknessMm : 0;

const boltFit = (pattern: Pattern, { bends }: FlatPattern): BoltFit => {
  const chance = chanceOf(pattern, pattern.holes);
  return {
    holes: pattern.holes.map((h: BoltHole) => h.name),
    names: pattern.holes.map((h) => h.key),
    bolts: pattern.holes.map((h) => h.bolt),
    meets: pattern.holes[0]?.meets ?? null,
    clearanceMm: Math.round(Math.min(...pattern.holes.map(playMm)) * 1e6) / 1e6,
    chance,
    mend: chance >= GOOD_CHANCE ? null : mendOf(pattern, bends),
  };
};
