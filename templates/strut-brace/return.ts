import { distance, hasStop, pieceOf, rectangle, roundFreeCorners } from '../../src/template.ts';
import type { Finding, GivenFold, Loop, Panel, SplitPlate } from '../../src/template.ts';
import type { CreaseLine } from './crease.ts';
import { piecesOn, sideOf } from './side.ts';
import { type BraceHole } from './sizes.ts';
import { type Inset, insetAt, setback } from './return-insets.ts';
import { heightAllBend, reliefNearHole, returnTooShort, sideCutAway } from './return-limits.ts';
import type { StrutBrace } from './inputs.ts';

/** The panels of the plate, with the flanges folded from them so far. */
export type Tree = Exclude<SplitPlate, { readonly findings: unknown }>;

interface Returned {
  readonly tree: Tree;
  /** Length of each piece along its fold. */
  readonly lengthsMm: readonly number[];
  readonly findings: readonly Finding[];
}

/**
 * The plate with its return edge: folded square along a straight side, stopping before both ends
 * with a relief. Where a crease or a notch cuts the side, there is a return edge on each part of
 * it.
 */
export function withReturn(
  v: StrutBrace,
  tree: Tree,
  outline: Loop,
  holes: readonly BraceHole[],
  crease: CreaseLine | undefined,
): Returned {
  const side = sideOf(v, outline);
  if (side === undefined) return { tree, lengthsMm: [], findings: [] };
  if ('severity' in side) return { tree, lengthsMm: [], findings: [side] };
  const low = heightAllBend(v);
  if (low.length > 0) return { tree, lengthsMm: [], findings: low };
  const homes = tree.panels.flatMap((panel) =>
    piecesOn(panel.outline, side).map((edge) => ({ panel, edge })),
  );
  if (homes.length === 0) return { tree, lengthsMm: [], findings: [sideCutAway(v)] };
  const made = homes.map(({ panel, edge }, i) => {
    const piece = pieceOf(panel.outline, edge);
    const insets = [
      insetAt(v, side, piece.from, piece.to, holes, crease),
      insetAt(v, side, piece.to, piece.from, holes, crease),
    ] as const;
    return onePiece(v, {
      panel: panel.id,
      edge,
      long: distance(piece.from, piece.to),
      insets,
      suffix: homes.length > 1 ? `${i + 1}` : '',
    });
  });
  const findings = made.flatMap((m) => m.findings);
  if (hasStop(findings)) return { tree, lengthsMm: [], findings };
  return {
    tree: {
      ...tree,
      panels: [...tree.panels, ...made.map((m) => m.panel)],
      folds: [...tree.folds, ...made.map((m) => m.fold)],
    },
    lengthsMm: made.map((m) => m.lengthMm),
    findings,
  };
}

/** A straight edge of a panel, and how far its return stops before its start and its end. */
interface Edge {
  readonly panel: string;
  readonly edge: number;
  readonly long: number;
  readonly insets: readonly [Inset, Inset];
  readonly suffix: string;
}

interface ReturnPiece {
  readonly panel: Panel;
  readonly fold: GivenFold;
  readonly lengthMm: number;
  readonly findings: readonly Finding[];
}

function onePiece(v: StrutBrace, { panel, edge, long, insets, suffix }: Edge): ReturnPiece {
  const [start, end] = insets;
  const lengthMm = long - start.mm - end.mm;
  // A shorter return is a tab that stiffens nothing (common practice).
  const least = 4 * v.thicknessMm;
  const id = `return${suffix === '' ? '' : ` ${suffix}`}`;
  const tooShort = lengthMm >= least ? [] : [returnTooShort(v, long, insets, least)];
  const shape = roundFreeCorners(
    id,
    rectangle(0, 0, Math.max(lengthMm, least), v.returnHeight),
    ['top'],
    v,
    { right: setback(v), left: setback(v) },
  );
  return {
    panel: { id, outline: shape.outline, cutouts: [] },
    fold: {
      id: `R${suffix}`,
      parent: { panel, edge, from: start.mm, to: long - end.mm },
      child: { panel: id, edge: 'bottom' },
      angleDeg: 90,
      direction: v.returnDirection,
      insideRadiusMm: v.insideRadiusMm,
    },
    lengthMm,
    findings: [
      ...tooShort,
      ...(tooShort.length > 0 ? [] : shape.findings),
      ...reliefNearHole(insets),
    ],
  };
}
