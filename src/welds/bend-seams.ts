import { invert, movePoint } from '../geometry/motion2.ts';
import { AT_HOME } from '../geometry/pose.ts';
import { middle } from '../geometry/vec2.ts';
import { length3, mix3, scale3, sub3, unit3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatBend, FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Fold } from '../model/part.ts';
import type { FoldedBody } from '../fold/fold-up.ts';
import type { Joint } from '../fold/joint.ts';
import { type BendZone, bendZone } from '../fold/zone.ts';
import type { Seam, SeamSide } from './seam-along.ts';

/**
 * Seams of folds that are made by hand along a row of slots. They are welded up afterwards, from
 * outside the bend or from inside it.
 */
export const slotSeams = (flat: FlatPattern, { joints }: FoldedBody): Seam[] =>
  joints
    .filter(({ fold }) => fold.slots !== undefined && isRound(fold))
    .map((joint) => {
      const bent = bentMetal(joint, flat);
      const away = unit3(sub3(bent.outer[0], bent.inner[0]));
      return seamOf(bent, [sideAlong(bent.outer, away), sideAlong(bent.inner, scale3(away, -1))]);
    });

/**
 * A lap may also be welded from behind the bend that carries the tab, which is the smaller of the
 * two panels. The weld goes into the groove between the round of the bend and the other panel, or
 * on the end of the other panel where it ends there.
 */
export const seamsBehind = (
  { panels }: Seam,
  flat: FlatPattern,
  { joints }: FoldedBody,
): Seam[] => {
  const areaOf = (id: string): number => flat.panels.find((p) => p.id === id)?.areaMm2 ?? 0;
  const [tab, other] = areaOf(panels[0]) <= areaOf(panels[1]) ? panels : [panels[1], panels[0]];
  return joints.flatMap((joint): Seam[] => {
    const { fold } = joint;
    const ends = [fold.parent.panel, fold.child.panel];
    if (!isRound(fold) || !ends.includes(tab) || ends.includes(other)) return [];
    const bent = bentMetal(joint, flat);
    return [
      seamOf(bent, [
        sideAlong(
          bent.outer,
          fold.child.panel === tab ? scale3(headingAfter(bent.zone, fold), -1) : bent.zone.out,
        ),
      ]),
    ];
  });
};

const isRound = (fold: Fold): boolean => fold.angleDeg > 0 && fold.midSurface !== true;

/** A bend in the coordinates of its parent, with the middle lines of its two faces. */
interface BentMetal {
  readonly bend: FlatBend;
  readonly placement: FlatPanel['placement'];
  readonly zone: BendZone;
  readonly outer: readonly [Vec3, Vec3];
  readonly inner: readonly [Vec3, Vec3];
}

const bentMetal = (joint: Joint, flat: FlatPattern): BentMetal => {
  const bend = flat.bends.find((b) => b.id === joint.fold.id) as FlatBend;
  const { placement } = flat.panels.find((p) => p.id === bend.parent) as FlatPanel;
  const zone = bendZone(joint, bend, placement, AT_HOME);
  const line = (z: number): readonly [Vec3, Vec3] => [
    zone.at(0, z, zone.rad / 2),
    zone.at(1, z, zone.rad / 2),
  ];
  const [outer, inner] = bend.direction === 'up' ? [0, joint.thicknessMm] : [joint.thicknessMm, 0];
  return { bend, placement, zone, outer: line(outer), inner: line(inner) };
};

/** Direction of the sheet at the end of the bend, away from the parent. */
const headingAfter = ({ out, rad }: BendZone, { direction }: Fold): Vec3 =>
  mix3(out, Math.cos(rad), [0, 0, direction === 'up' ? 1 : -1], Math.sin(rad));

const sideAlong = ([from, to]: readonly [Vec3, Vec3], towards: Vec3): SeamSide => ({
  from,
  to,
  towards,
});

const seamOf = (
  { bend, placement, outer: [from, to] }: BentMetal,
  sides: readonly SeamSide[],
): Seam => ({
  name: `along fold ${bend.id}`,
  panels: [bend.parent, bend.child],
  home: bend.parent,
  lengthMm: length3(sub3(to, from)),
  along: unit3(sub3(to, from)),
  sides,
  at: movePoint(invert(placement), middle(...bend.centreLine)),
  isLap: false,
});
