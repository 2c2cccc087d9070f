import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { loopExtents } from '../geometry/extents.ts';
import { levelCrossings, pieceOf, pointOn } from '../geometry/piece.ts';
import { polygon } from '../geometry/loop.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { dot, leftOf, sub, type Vec2 } from '../geometry/vec2.ts';
import type { Joint } from '../fold/joint.ts';
import type { Finding } from '../model/finding.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import type { Cutout, Fold, Panel } from '../model/part.ts';
import { type Draft, jointFrom, panelOf } from './draft.ts';
import type { SeamCut } from './seam-cut.ts';
import { drawnLoop } from './split-pieces.ts';
import { type Reach, roomAtEnds, roomyFor, type SeamEdge } from './seam-edges.ts';

/** A flange shorter than this along its fold, in thicknesses, holds nothing. */
const LEAST_LENGTH = 5;

/**
 * The flange on one panel of a seam that lies on the inside face of the other one, over a flat land,
 * and its fold: that of the seam, moved in by a thickness of the other panel. It keeps away from the
 * ends of that panel, and narrows with it.
 */
export function lapFlange(
  draft: Draft,
  cut: SeamCut & { readonly way: 'lap' },
  edge: SeamEdge,
): { readonly panel: Panel; readonly fold: Fold } | Finding {
  const joint = jointFrom(draft, cut.fold, cut.on);
  const { fold, thicknessMm, figures } = joint;
  const other = fold.child.panel;
  const { setbackMm } = figures;
  // Along the slope of the other panel the moved corner lies that much nearer to its end.
  const lowerMm = (thicknessMm * cosDeg(fold.angleDeg)) / sinDeg(fold.angleDeg);
  const levels = [setbackMm, setbackMm + cut.landMm].map((h) => Math.max(NOISE_MM, h - lowerMm));
  const own = roomyFor(draft, cut.fold, cut.on);
  const reaches = levels.map((level) => within(own, widthAt(draft, joint, level)));
  const [foot, top] = [reaches[0], within(reaches[0], reaches[1])];
  const least = LEAST_LENGTH * thicknessMm;
  if (foot === undefined || top === undefined || top.to - top.from < least)
    return noRoom(draft, cut, other, `${other} is too small for it`);
  const hidden = hiddenBy(draft, joint, foot, levels[1] as number);
  if (hidden !== undefined) return noRoom(draft, cut, other, `it would cover ${hidden.from}`);
  const x = (c: number): number => foot.to - c;
  const outline = polygon(
    [0, 0],
    [x(foot.from), 0],
    [x(foot.from), setbackMm],
    [x(top.from), setbackMm + cut.landMm],
    [x(top.to), setbackMm + cut.landMm],
    [0, setbackMm],
  );
  const { asked: _, slots: __, ...plain } = fold;
  const id = `${other} lap`;
  return {
    panel: { id, outline, cutouts: [] },
    fold: {
      ...plain,
      parent: {
        panel: cut.on,
        edge: edge.edge,
        from: foot.from - edge.from,
        to: foot.to - edge.from,
      },
      child: { panel: id, edge: 0 },
    },
  };
}

const within = (a: Reach | undefined, b: Reach | undefined): Reach | undefined =>
  a === undefined || b === undefined
    ? undefined
    : { from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) };

/**
 * How far the other panel of a seam reaches along it at some height over its edge, less the room at
 * its ends, seen from the panel that the flange grows on.
 */
const widthAt = (draft: Draft, joint: Joint, level: number): Reach | undefined => {
  const { childAt, childDir, fold } = joint;
  const loop = drawnLoop(panelOf(draft, fold.child.panel).loop);
  const into = leftOf(childDir);
  const places = loop.flatMap((_, i) => {
    const piece = pieceOf(loop, i);
    return levelCrossings(piece, into, dot(childAt, into) + level).map(
      (share) => -dot(sub(pointOn(piece, share), childAt), childDir),
    );
  });
  const own = roomyFor(draft, fold.id, fold.parent.panel);
  const middle = (own.from + own.to) / 2;
  const [before, after] = [places.filter((c) => c < middle), places.filter((c) => c > middle)];
  if (before.length === 0 || after.length === 0) return undefined;
  const room = roomAtEnds(draft, fold.id, fold.parent.panel);
  return { from: Math.max(...before) + room.from, to: Math.min(...after) - room.to };
};

/** A hole of the other panel that the flange, or metal of a thickness round it, would lie over. */
const hiddenBy = (
  draft: Draft,
  { childAt, childDir, fold, thicknessMm }: Joint,
  foot: Reach,
  topMm: number,
): Cutout | undefined =>
  panelOf(draft, fold.child.panel).panel.cutouts.find((cutout) => {
    const box = boxOf(cutout).map((p) => sub(p, childAt));
    const along = box.map((p) => -dot(p, childDir));
    const over = box.map((p) => dot(p, leftOf(childDir)));
    return (
      Math.max(...along) > foot.from - thicknessMm &&
      Math.min(...along) < foot.to + thicknessMm &&
      Math.min(...over) < topMm + thicknessMm
    );
  });

const boxOf = (cutout: Cutout): readonly Vec2[] => {
  if (cutout.kind === 'round') {
    const { centre, diameterMm } = cutout;
    const r = diameterMm / 2;
    return [-r, r].flatMap((dx) => [-r, r].map((dy): Vec2 => [centre[0] + dx, centre[1] + dy]));
  }
  const box = loopExtents(cutout.loop);
  return box === undefined
    ? []
    : [box.minX, box.maxX].flatMap((x) => [box.minY, box.maxY].map((y): Vec2 => [x, y]));
};

const noRoom = (
  draft: Draft,
  { fold, on }: SeamCut & { readonly way: 'lap' },
  other: string,
  why: string,
): Finding =>
  foundOn(
    'no-lap-seam',
    { panels: [on, other], folds: [fold] },
    `No flange on ${on} can lap ${other} at ${foldName(draft.part, fold)}: ${why}`,
    `make it narrower (lapWidth), put it on ${other}, or weld there without one (weldAt)`,
  );
