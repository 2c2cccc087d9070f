import { bendFigures, type BendFigures } from '../bending/bend.ts';
import { type Joint, makeJoint, turnedRound } from '../fold/joint.ts';
import type { Loop } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { along, distance, scale, sub } from '../geometry/vec2.ts';
import type { BendRule } from '../model/bend-rule.ts';
import type { Finding } from '../model/finding.ts';
import type { FlatVertex, Origin } from '../model/flat.ts';
import type { Fold, Panel, Part } from '../model/part.ts';

/** A vertex of a panel while its blank is worked out. */
export interface DraftVertex extends FlatVertex {
  /** The piece that starts here is a stretch where this fold leaves the panel. */
  readonly fold?: string;
  /** Whether the stretch has been moved in to the bend's tangent line. */
  readonly carved?: boolean;
}

/** A panel while its blank is worked out. `loop` is replaced at every step. */
export interface DraftPanel {
  readonly panel: Panel;
  loop: Loop<DraftVertex>;
  /** The fold to the parent; absent on the root. */
  readonly link: string | undefined;
}

/** The part being flattened: its panels by name, its folds as joints, what was found on the way. */
export interface Draft {
  readonly part: Part;
  readonly panels: ReadonlyMap<string, DraftPanel>;
  readonly joints: ReadonlyMap<string, Joint>;
  readonly findings: Finding[];
}

/**
 * Prepares a part in which `partFlaws` found nothing: outlines are split where a fold's stretch
 * begins and ends, and each fold gets its frame on both sides and the figures of its bend.
 */
export const startDraft = (part: Part, rule: BendRule): Draft => {
  const joints = new Map(
    part.folds.map((f) => [f.id, makeJoint(part, f, figuresOf(part, f, rule))]),
  );
  const panels = new Map(part.panels.map((p) => [p.id, draftPanel(part, p)]));
  return { part, panels, joints, findings: [] };
};

export const panelOf = (draft: Draft, id: string): DraftPanel => draft.panels.get(id) as DraftPanel;
export const jointOf = (draft: Draft, id: string): Joint => draft.joints.get(id) as Joint;
export const childPanelOf = (draft: Draft, fold: string): DraftPanel =>
  panelOf(draft, jointOf(draft, fold).fold.child.panel);

/** A joint as seen from one of its two panels, which becomes its parent. */
export const jointFrom = (draft: Draft, fold: string, panel: string): Joint => {
  const joint = jointOf(draft, fold);
  return joint.fold.parent.panel === panel ? joint : turnedRound(joint);
};

/** All folds on a panel, including the one to its parent, in the order of the part. */
export const foldsOn = (draft: Draft, panel: string): string[] =>
  draft.part.folds
    .filter((f) => f.parent.panel === panel || f.child.panel === panel)
    .map((f) => f.id);

/** Index in the loop of the piece where a fold leaves it; -1 when trimming took the piece away. */
export const foldPieceOf = (loop: Loop<DraftVertex>, fold: string): number =>
  loop.findIndex((v) => v.fold === fold);

const figuresOf = (part: Part, fold: Fold, rule: BendRule): BendFigures =>
  fold.midSurface === true
    ? MID_SURFACE
    : bendFigures(
        fold.rule ?? rule,
        {
          thicknessMm: part.thicknessMm,
          insideRadiusMm: fold.insideRadiusMm,
          angleDeg: fold.angleDeg,
          teardropMm: fold.teardropMm,
        },
        part.measure,
      );

/**
 * Figures of folds on the middle of the sheet, which is taken as the neutral line: the panels lie
 * side by side.
 */
const MID_SURFACE: BendFigures = {
  allowanceMm: 0,
  setbackMm: 0,
  deductionMm: 0,
  kFactor: 0.5,
  rule: 'k:0.5',
};

const draftPanel = (part: Part, panel: Panel): DraftPanel => {
  const loop: DraftVertex[] = [];
  panel.outline.forEach((v, edge) => {
    const origin: Origin = { kind: 'edge', panel: panel.id, edge };
    const sides = sidesOn(part, panel.id, edge);
    if (sides.length === 0) loop.push({ x: v.x, y: v.y, bulge: v.bulge, origin });
    else loop.push(...splitEdge(panel, edge, sides, origin));
  });
  return { panel, loop, link: part.folds.find((f) => f.child.panel === panel.id)?.id };
};

interface Side {
  readonly fold: string;
  readonly from: number;
  readonly to: number;
}

const sidesOn = (part: Part, panel: string, edge: number): Side[] => {
  const sides: Side[] = [];
  for (const f of part.folds) {
    for (const side of [f.parent, f.child]) {
      if (side.panel === panel && side.edge === edge)
        sides.push({ fold: f.id, from: side.from ?? 0, to: side.to ?? Infinity });
    }
  }
  return sides.sort((a, b) => a.from - b.from);
};

/** The edge as free stretches and folded ones. Stretches shorter than the noise are left out. */
const splitEdge = (
  panel: Panel,
  edge: number,
  sides: readonly Side[],
  origin: Origin,
): DraftVertex[] => {
  const piece = pieceOf(panel.outline, edge);
  const total = distance(piece.from, piece.to);
  const dir = scale(sub(piece.to, piece.from), 1 / total);
  const pieces: DraftVertex[] = [];
  const push = (from: number, fold?: string): void => {
    const [x, y] = from === 0 ? piece.from : along(piece.from, dir, from);
    pieces.push(fold === undefined ? { x, y, bulge: 0, origin } : { x, y, bulge: 0, origin, fold });
  };
  let at = 0;
  for (const side of sides) {
    const to = Math.min(side.to, total);
    if (side.from > at + NOISE_MM) push(at);
    push(side.from > at + NOISE_MM ? side.from : at, side.fold);
    at = to;
  }
  if (at < total - NOISE_MM) push(at);
  return pieces;
};
