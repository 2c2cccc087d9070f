import {
  assemble,
  type Built,
  cornerMm,
  type FreeCorner,
  type GivenFold,
  type GivenSide,
  type Panel,
  placeHoles,
  polygon,
  rectangle,
  roundFreeCorners,
  setbackMm,
} from '../../src/template.ts';
import { leftAdded, noseMm, type OutsideGusset, outsideGusset, type Side } from './sizes.ts';
import { impossibleGusset } from './limits.ts';
import { gussetWishes } from './wishes.ts';
import type { Gusset } from './inputs.ts';

/** Base, upright and cheeks, folded up from one blank. */
export function gusset(given: Gusset): Built {
  const v = outsideGusset(given);
  const findings = impossibleGusset(v);
  if (findings.length > 0) return { findings };
  const sides = (['left', 'right'] as const).filter(
    (side) => v.gussetSide === side || v.gussetSide === 'both',
  );
  const base = basePanel(v, sides);
  const upright = uprightPanel(v);
  return {
    part: assemble(v, {
      root: 'base',
      panels: [base.panel, upright.panel, ...sides.map((side) => cheekPanel(v, side))],
      folds: [
        fold(v, 'A', { panel: 'base', edge: 'top' }, { panel: 'upright', edge: 'bottom' }),
        ...sides.map((side) => cheekFold(v, side, isRounded(v, sides, side))),
      ],
      corners: sides.map((side) => ({ folds: ['A', foldId(side)], style: 'butt', through: 'A' })),
      wishes: gussetWishes(given, sides),
    }),
    findings: [...base.findings, ...upright.findings],
  };
}

const foldId = (side: Side): string => (side === 'left' ? 'B' : 'C');

/** A free corner of the base is rounded unless a cheek reaches it. */
const isRounded = (v: Gusset, sides: readonly Side[], side: Side): boolean =>
  cornerMm(v) > 0 && (!sides.includes(side) || v.gussetDepth < v.base);

/**
 * Lengths across and along as they are measured: to the free edge, and between the cheeks or over
 * them.
 */
const spans = (v: OutsideGusset, outsideMm: number): readonly [number, number] => [
  outsideMm - v.added,
  v.width - (v.gussetSide === 'both' ? 2 : 1) * v.added,
];

function basePanel(v: OutsideGusset, sides: readonly Side[]) {
  const setback = setbackMm(90, v.insideRadiusMm, v.thicknessMm, 'outside');
  // The end of a cheek's fold needs room beside it for its relief.
  const keep = (side: Side): number =>
    sides.includes(side) ? v.gussetDepth + Math.max(v.thicknessMm, v.leastSlotMm) : setback;
  const corners = (['left', 'right'] as const)
    .filter((side) => isRounded(v, sides, side))
    .map((side): FreeCorner => ['bottom', side]);
  const shape = roundFreeCorners('the base', rectangle(0, 0, v.width, v.base), corners, v, {
    right: keep('right'),
    left: keep('left'),
  });
  const cutouts = placeHoles('holesBase', v.holesBase, {
    thicknessMm: v.thicknessMm,
    origin: [leftAdded(v), v.base - v.added],
    across: [0, -1],
    along: [1, 0],
    spanMm: spans(v, v.base),
  });
  const panel: Panel = { id: 'base', outline: shape.outline, cutouts };
  return { ...shape, panel };
}

function uprightPanel(v: OutsideGusset) {
  const setback = setbackMm(90, v.insideRadiusMm, v.thicknessMm, 'outside');
  const shape = roundFreeCorners('the upright', rectangle(0, 0, v.width, v.upright), ['top'], v, {
    right: setback,
    left: setback,
  });
  const cutouts = placeHoles('holesUpright', v.holesUpright, {
    thicknessMm: v.thicknessMm,
    origin: [leftAdded(v), v.added],
    across: [0, 1],
    along: [1, 0],
    spanMm: spans(v, v.upright),
  });
  const panel: Panel = { id: 'upright', outline: shape.outline, cutouts };
  return { ...shape, panel };
}

/**
 * The panel of a cheek. Its folded edge is `bottom`; the corner at the upright is on the right of
 * the left cheek and on the left of the right one.
 */
function cheekPanel(v: OutsideGusset, side: Side): Panel {
  const [depth, height, nose] = [v.gussetDepth, v.gussetHeight, noseMm(v)];
  const id = `${side} cheek`;
  if (side === 'left') {
    const outline = polygon([0, 0, 'bottom'], [depth, 0], [depth, height], [0, nose]);
    return {
      id,
      outline,
      cutouts: placeHoles('holesLeft', v.holesLeft, {
        thicknessMm: v.thicknessMm,
        origin: [depth - v.added, v.added],
        across: [0, 1],
        along: [-1, 0],
      }),
    };
  }
  const outline = polygon([0, 0, 'bottom'], [depth, 0], [depth, nose], [0, height]);
  return {
    id,
    outline,
    cutouts: placeHoles('holesRight', v.holesRight, {
      thicknessMm: v.thicknessMm,
      origin: [v.added, v.added],
      across: [0, 1],
      along: [1, 0],
    }),
  };
}

const fold = (v: Gusset, id: string, parent: GivenSide, child: GivenSide): GivenFold => ({
  id,
  parent,
  child,
  angleDeg: 90,
  direction: 'up',
  insideRadiusMm: v.insideRadiusMm,
});

/**
 * The fold of a cheek. The left edge of the base begins at the upright and the right one ends
 * there, shortened where its start is rounded.
 */
function cheekFold(v: Gusset, side: Side, rounded: boolean): GivenFold {
  const end = v.base - (rounded ? cornerMm(v) : 0);
  const stretch =
    side === 'left' ? { from: 0, to: v.gussetDepth } : { from: end - v.gussetDepth, to: end };
  return fold(
    v,
    foldId(side),
    { panel: 'base', edge: side, ...stretch },
    { panel: `${side} cheek`, edge: 'bottom' },
  );
}
