import { assemble, placeHoles, rectangle, roundFreeCorners } from '../../src/template.ts';
import type {
  Built,
  Corner,
  Cutout,
  Finding,
  GivenFold,
  HoleFrame,
  HoleSpec,
  Loop,
  Panel,
} from '../../src/template.ts';
import { impossibleTray } from './limits.ts';
import { baseOutline, wallShape } from './outline.ts';
import {
  hemRadiusMm,
  insetMm,
  isHem,
  isInward,
  lipOf,
  type OutsideTray,
  outsideTray,
  reachMm,
  runsOn,
  type Side,
  SIDES,
  spanMm,
  tabStretch,
} from './sizes.ts';
import type { Tray } from './inputs.ts';
import { trayWishes } from './wishes.ts';

/** Panels with the folds that join them, and their findings. */
interface Pieces {
  readonly panels: readonly Panel[];
  readonly folds: readonly GivenFold[];
  readonly findings: readonly Finding[];
}

/**
 * A base with four sides folded up square, lips on the sides, and tabs at the ends of the front and
 * back of a lapped one.
 */
export function trayPart(given: Tray): Built {
  const v = outsideTray(given);
  const findings = impossibleTray(v);
  if (findings.length > 0) return { findings };
  const base: Panel = {
    id: 'base',
    outline: baseOutline(v),
    cutouts: placeHoles('holesBase', v.holesBase, {
      thicknessMm: v.thicknessMm,
      origin: [v.added.length / 2, v.added.depth / 2],
      across: [0, 1],
      along: [1, 0],
      spanMm: [given.depth, given.length],
    }),
  };
  const pieces = SIDES.flatMap((side) => [wall(v, side), lip(v, side), tabs(v, side)]);
  return {
    part: assemble(v, {
      root: 'base',
      panels: [base, ...pieces.flatMap((p) => p.panels)],
      folds: pieces.flatMap((p) => p.folds),
      corners: v.corner === 'open' ? [] : SIDES.map(cornerAfter),
      wishes: trayWishes(given, lipFoldOf),
    }),
    findings: pieces.flatMap((p) => p.findings),
  };
}

const after = (side: Side): Side => SIDES[(SIDES.indexOf(side) + 1) % 4] as Side;
const before = (side: Side): Side => SIDES[(SIDES.indexOf(side) + 3) % 4] as Side;

/** Names of the folds: sides are folded at A to D, lips at E to H, tabs at J to M. */
const foldOf = (side: Side): string => 'ABCD'.charAt(SIDES.indexOf(side));
const lipFoldOf = (side: Side): string => 'EFGH'.charAt(SIDES.indexOf(side));
const tabFoldsOf = (side: Side): readonly [string, string] =>
  side === 'front' ? ['J', 'K'] : ['L', 'M'];

const cornerAfter = (side: Side): Corner => {
  const through = runsOn(side) ? side : after(side);
  return { folds: [foldOf(side), foldOf(after(side))], style: 'butt', through: foldOf(through) };
};

const bent = (v: Tray) =>
  ({ angleDeg: 90, direction: 'up', insideRadiusMm: v.insideRadiusMm }) as const;

function holesOf(v: Tray, side: Side): readonly [input: string, specs: readonly HoleSpec[]] {
  switch (side) {
    case 'front':
      return ['holesFront', v.holesFront];
    case 'right':
      return ['holesRight', v.holesRight];
    case 'back':
      return ['holesBack', v.holesBack];
    case 'left':
      return ['holesLeft', v.holesLeft];
  }
}

/**
 * A side. Its left end seen from outside is the right one of its panel, which is drawn as seen from
 * inside.
 */
function wall(v: OutsideTray, side: Side): Pieces {
  const [span, inset] = [spanMm(v, side), insetMm(v, side)];
  const [input, holes] = holesOf(v, side);
  const { height, length } = v.added;
  const frame: HoleFrame = {
    thicknessMm: v.thicknessMm,
    origin: [span - inset - length / 2, height],
    across: [0, 1],
    along: [-1, 0],
    spanMm: [v.height - height, span - length],
  };
  const cutouts: Cutout[] = placeHoles(input, holes, frame);
  return {
    panels: [{ id: side, outline: shapeOf(v, side), cutouts }],
    folds: [
      {
        id: foldOf(side),
        parent: { panel: 'base', edge: side, from: inset, to: span - inset },
        child: { panel: side, edge: 'bottom' },
        ...bent(v),
      },
    ],
    findings: [],
  };
}

/**
 * Outline of a side. The right end of its panel lies at the side before it, because the base meets
 * the panel backwards.
 */
const shapeOf = (v: Tray, side: Side): Loop => wallShape(v, side, before(side), after(side));

/**
 * A lip along the top. Where two sides butt, an inward lip of the side that runs on stops before
 * whatever its neighbours have inside; everywhere else the corner is cut together with the sides.
 */
function lip(v: Tray, side: Side): Pieces {
  const kind = lipOf(v, side);
  if (kind === 'none') return { panels: [], folds: [], findings: [] };
  const width = spanMm(v, side) - 2 * insetMm(v, side);
  const [start, end] = lipEnds(v, side);
  const id = `${side} lip`;
  return {
    panels: [{ id, outline: rectangle(0, 0, width - start - end, v.lipDepth), cutouts: [] }],
    folds: [
      {
        id: lipFoldOf(side),
        parent: { panel: side, edge: 'top', from: start, to: width - end },
        child: { panel: id, edge: 'bottom' },
        angleDeg: isHem(kind) ? 180 : 90,
        direction: isInward(kind) ? 'up' : 'down',
        insideRadiusMm: isHem(kind) ? hemRadiusMm(v) : v.insideRadiusMm,
        ...(isHem(kind) && v.hemShape === 'teardrop' && { teardropMm: v.lipDepth }),
      },
    ],
    findings: [],
  };
}

/**
 * How far a lip stays away from the two ends of its side's top, which runs backwards compared with
 * the base.
 */
function lipEnds(v: Tray, side: Side): readonly [number, number] {
  if (v.corner === 'open' || !runsOn(side) || !isInward(lipOf(v, side))) return [0, 0];
  const clear = (neighbour: Side): number => reachMm(v, lipOf(v, neighbour)) + v.cornerGapMm;
  return [clear(before(side)), clear(after(side))];
}

function tabs(v: Tray, side: Side): Pieces {
  if (v.corner !== 'lapped' || runsOn(side)) return { panels: [], folds: [], findings: [] };
  const made = [tab(v, side, before(side), 'right end'), tab(v, side, after(side), 'left end')];
  return {
    panels: made.flatMap((p) => p.panels),
    folds: made.flatMap((p) => p.folds),
    findings: made.flatMap((p) => p.findings),
  };
}

function tab(v: Tray, side: Side, neighbour: Side, end: 'left end' | 'right end'): Pieces {
  const [low, high] = tabStretch(v, side, neighbour);
  const id = `${side} tab at ${neighbour}`;
  const bend = v.insideRadiusMm + v.thicknessMm;
  const shape = roundFreeCorners(id, rectangle(0, 0, high - low, v.lap), ['top'], v, {
    right: bend,
    left: bend,
  });
  return {
    panels: [{ id, outline: shape.outline, cutouts: [] }],
    folds: [
      {
        id: tabFoldsOf(side)[end === 'right end' ? 0 : 1],
        parent: { panel: side, edge: end },
        child: { panel: id, edge: 'bottom' },
        ...bent(v),
      },
    ],
    findings: shape.findings,
  };
}
