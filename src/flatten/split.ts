import { ruleFindings } from '../bending/rule-findings.ts';
import { foldPose, type Joint } from '../fold/joint.ts';
import { cosDeg } from '../geometry/degrees.ts';
import { pieceOf } from '../geometry/piece.ts';
import type { Loop } from '../geometry/loop.ts';
import { AT_HOME, composePoses, type Pose } from '../geometry/pose.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { BendRule } from '../model/bend-rule.ts';
import { type Finding, hasStop } from '../model/finding.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import type { Fold, FoldSide, Panel, Part } from '../model/part.ts';
import type { Facing, Wish } from '../model/wish.ts';
import { carve } from './carve.ts';
import { shortened, squareOff } from './cut-panel.ts';
import {
  type Draft,
  type DraftPanel,
  type DraftVertex,
  foldPieceOf,
  foldsOn,
  jointFrom,
  jointOf,
  panelOf,
  startDraft,
} from './draft.ts';
import { partFlaws } from './part-flaws.ts';
import { trimAtSeams } from './trim.ts';

/**
 * A part that is welded at some of its folds in place of being bent there: its pieces, each a part
 * of its own, with the place of its root on the folded whole, or what prevents that.
 */
export type Split =
  | { readonly ok: true; readonly pieces: readonly Part[]; readonly poses: readonly Pose[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Past this angle two edges do not stand against each other any more: it is a hem, not a corner. */
const MOST_WELD_DEG = 150;

/** Whether a fold can be a weld seam: an edge against an edge, with room for it. */
export const isWeldable = ({ angleDeg, midSurface, teardropMm }: Fold): boolean =>
  angleDeg > 0 && angleDeg <= MOST_WELD_DEG && midSurface !== true && teardropMm === undefined;

/**
 * Cuts a part apart at some of its folds. Put together again, its panels stand exactly where they
 * stand on the folded part: flanges that end beside a seam are trimmed as for the whole, and at each
 * cut both panels end, square to the sheet, before the line in which their inside faces meet, so
 * that their inner edges have the weld gap between them.
 */
export function splitPart(
  part: Part,
  rule: BendRule,
  cut: readonly string[],
  gapMm: number,
): Split {
  if (partFlaws(part).length > 0 || hasStop(ruleFindings(rule, part)))
    return { ok: true, pieces: [part], poses: [AT_HOME] };
  const hems = part.folds.filter((fold) => cut.includes(fold.id) && !isWeldable(fold));
  if (hems.length > 0) return { ok: false, findings: hems.map((fold) => noSeam(part, fold)) };
  const draft = startDraft(part, rule);
  trimAtSeams(draft, (fold) => cut.includes(fold));
  if (!hasStop(draft.findings)) for (const fold of cut) cutAt(draft, fold, gapMm);
  if (hasStop(draft.findings)) return { ok: false, findings: draft.findings };
  const pieces = piecesOf(draft, new Set(cut));
  return { ok: true, pieces, poses: pieces.map(({ root }) => poseOf(draft, root)) };
}

/** Where a panel stands on the folded whole, seen from the root of that. */
const poseOf = (draft: Draft, panel: string): Pose => {
  const link = draft.part.folds.find(({ child }) => child.panel === panel);
  return link === undefined
    ? AT_HOME
    : composePoses(poseOf(draft, link.parent.panel), foldPose(jointOf(draft, link.id)));
};

const noSeam = (part: Part, { id, parent, child }: Fold): Finding =>
  foundOn(
    'no-weld-seam',
    { panels: [parent.panel, child.panel], folds: [id] },
    `${foldName(part, id)} is a hem, or one of the slight bends of a transition, and no seam can take its place`,
    'leave it out of weldAt',
  );

/**
 * How far the edge of a panel, as it is drawn at a fold, goes back for a seam in its place: to the
 * line in which the inside faces meet, and half the gap between two edges that meet at the angle.
 */
const setBackMm = ({ fold, figures }: Joint, gapMm: number): number =>
  figures.setbackMm - fold.insideRadiusMm * tanHalf(fold.angleDeg) + halfGap(fold, gapMm);

const tanHalf = (deg: number): number => Math.tan((deg * Math.PI) / 360);

const halfGap = ({ angleDeg }: Fold, gapMm: number): number => gapMm / (2 * cosDeg(angleDeg / 2));

function cutAt(draft: Draft, fold: string, gapMm: number): void {
  const joint = jointOf(draft, fold);
  const back = setBackMm(joint, gapMm);
  for (const side of [joint.fold.parent, joint.fold.child])
    cutBack(draft, panelOf(draft, side.panel), fold, back);
}

/** Moves the edge in, and with it the ends of the folds beside it. */
function cutBack(draft: Draft, target: DraftPanel, fold: string, backMm: number): void {
  const { id } = target.panel;
  const before = target.loop;
  const at = foldPieceOf(before, fold);
  if (at < 0 || backMm < NOISE_MM) return;
  const { thicknessMm, relief } = draft.part;
  const moved = carve(before, at, {
    fold,
    panel: id,
    setbackMm: backMm,
    notch: { shape: 'square', widthMm: relief.leastSlotMm, depthMm: 0, leastTabMm: thicknessMm },
    setbackOf: () => backMm,
  });
  if ('kind' in moved) {
    draft.findings.push(
      foundOn(
        'no-weld-seam',
        { panels: [id], folds: [fold] },
        `${id} has no room for a weld seam in place of ${foldName(draft.part, fold)}`,
        'make it longer, or weld at another fold',
      ),
    );
    return;
  }
  target.loop = moved;
  for (const other of foldsOn(draft, id)) {
    if (other === fold || jointOf(draft, other).fold.parent.panel !== id) continue;
    for (const less of shortened(jointFrom(draft, other, id), before, moved))
      squareOff(draft, less);
  }
}

/** The groups of panels that folds still join, as parts. The first holds the root. */
function piecesOf(draft: Draft, cut: ReadonlySet<string>): Part[] {
  const { part } = draft;
  const kept = part.folds.filter(({ id }) => !cut.has(id));
  const rootOf = (panel: string): string => {
    const link = kept.find(({ child }) => child.panel === panel);
    return link === undefined ? panel : rootOf(link.parent.panel);
  };
  const roots = [...new Set([part.root, ...part.panels.map(({ id }) => rootOf(id))])];
  return roots.map((root) => {
    const panels = part.panels.filter(({ id }) => rootOf(id) === root);
    const folds = kept.filter(({ parent }) => rootOf(parent.panel) === root);
    const has = (id: string): boolean => folds.some((f) => f.id === id);
    return {
      ...part,
      root,
      panels: panels.map(({ id }) => drawnPanel(panelOf(draft, id))),
      folds: folds.map((fold) => drawnFold(draft, fold)),
      ...(part.corners !== undefined && {
        corners: part.corners.filter((corner) => corner.folds.every(has)),
      }),
      wishes: (part.wishes ?? []).filter((wish) =>
        isOnPiece(wish, new Set(panels.map(({ id }) => id)), has, facingCuts(draft, cut)),
      ),
    };
  });
}

const drawnLoop = (loop: Loop<DraftVertex>): Loop<DraftVertex> =>
  loop.filter((v, i) => {
    const next = loop[(i + 1) % loop.length] as DraftVertex;
    return distance([v.x, v.y], [next.x, next.y]) > NOISE_MM;
  });

const drawnPanel = ({ panel, loop }: DraftPanel): Panel => ({
  ...panel,
  outline: drawnLoop(loop).map(({ x, y, bulge }) => ({ x, y, bulge })),
});

/** A fold on the stretch that both of its panels still have. */
function drawnFold(draft: Draft, fold: Fold): Fold {
  const joint = jointOf(draft, fold.id);
  const stretchOf = (panel: string, at: Vec2, dir: Vec2) => {
    const loop = drawnLoop(panelOf(draft, panel).loop);
    const edge = foldPieceOf(loop, fold.id);
    const { from, to } = pieceOf(loop, edge);
    const along = (p: Vec2): number => dot(sub(p, at), dir);
    return { panel, edge, from: along(from), to: along(to) };
  };
  const parent = stretchOf(fold.parent.panel, joint.parentAt, joint.parentDir);
  // The child's edge runs against the parent's.
  const child = stretchOf(fold.child.panel, joint.childAt, joint.childDir);
  const [from, to] = [Math.max(parent.from, -child.to), Math.min(parent.to, -child.from)];
  return {
    ...fold,
    parent: sideOf(parent, from, to),
    child: sideOf(child, -to, -from),
  };
}

/** A side with its stretch, where that is not all of its edge. */
const sideOf = (
  whole: { panel: string; edge: number; from: number; to: number },
  from: number,
  to: number,
): FoldSide => ({
  panel: whole.panel,
  edge: whole.edge,
  ...(from > whole.from + SAME_END_MM && { from: from - whole.from }),
  ...(to < whole.to - SAME_END_MM && { to: to - whole.from }),
});

/** Ends of two panels nearer than this are the same: no cutter tells them apart. */
const SAME_END_MM = 1e-5;

/** The panels that were cut, each with the way that the new edge faces in its own coordinates. */
const facingCuts = (
  draft: Draft,
  cut: ReadonlySet<string>,
): ReadonlyMap<string, readonly Vec2[]> => {
  const found = new Map<string, Vec2[]>();
  for (const id of cut) {
    const { fold, parentDir, childDir } = jointOf(draft, id);
    const sides = [
      [fold.parent.panel, parentDir],
      [fold.child.panel, childDir],
    ] as const;
    for (const [panel, dir] of sides) {
      const out = leftOf(unit(dir));
      found.set(panel, [...(found.get(panel) ?? []), [-out[0], -out[1]]]);
    }
  }
  return found;
};

const WAYS: Readonly<Record<Facing, Vec2>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, 1],
  down: [0, -1],
};

/** Whether what an input means can still be found on one piece, and not from a new edge. */
function isOnPiece(
  wish: Wish,
  panels: ReadonlySet<string>,
  hasFold: (id: string) => boolean,
  cuts: ReadonlyMap<string, readonly Vec2[]>,
): boolean {
  if (wish.kind === 'angle') return wish.panels.every((id) => panels.has(id));
  if (wish.kind === 'diameter') return panels.has(wish.panel);
  return wish.between.every(
    (feature) =>
      panels.has(feature.panel) &&
      (feature.kind !== 'fold' || hasFold(feature.fold)) &&
      (feature.kind !== 'edge' ||
        (cuts.get(feature.panel) ?? []).every((way) => dot(way, WAYS[feature.facing]) < 0.5)),
  );
}
