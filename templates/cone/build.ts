import {
  assemble,
  bumpFigures,
  type Built,
  distance,
  figure,
  type Finding,
  lineMm,
  linesFor,
  note,
  type Report,
  type ReportFigure,
  type Rolled,
  rolledWish,
  type RollMark,
  type RulingLine,
  wallTurnDeg,
  type Wish,
} from '../../src/template.ts';
import { impossibleCone } from './limits.ts';
import { outlineOf } from './outline.ts';
import { type ConeSizes, coneSizes, type FlatPiece, flatPiece, kindsOf } from './sizes.ts';
import type { Cone } from './inputs.ts';

/** A frustum of a right or an oblique cone as the blanks that it is rolled from. */
export const cone = (v: Cone): Built => {
  const findings = impossibleCone(v);
  if (findings.length > 0) return { findings };
  const s = coneSizes(v);
  const pieces = Array.from({ length: kindsOf(v) }, (_, i) => flatPiece(v, s, i));
  const parts = pieces.map((piece) => partOf(v, s, piece));
  const rest = {
    findings: [said(v, s)],
    report: reportOf(v, s, pieces[0] as FlatPiece),
  };
  const [only] = parts;
  if (v.pieces === 1 && only !== undefined) return { part: only, ...rest };
  return {
    pieces: parts.map((part, i) => ({
      id: parts.length === 1 ? 'piece' : `piece-${i + 1}`,
      part,
      ...(parts.length === 1 && { quantity: v.pieces }),
    })),
    ...rest,
  };
};

const partOf = (v: Cone, s: ConeSizes, piece: FlatPiece) =>
  assemble(v, {
    root: 'wall',
    panels: [{ id: 'wall', outline: outlineOf(s, piece), cutouts: [] }],
    folds: [],
    rolled: rolledOf(v, s, piece),
    wishes: wishesOf(v, s, piece),
  });

/** Degrees round the cone from one line that is marked to the next. */
const MARK_DEG = 30;

const rolledOf = (v: Cone, s: ConeSizes, piece: FlatPiece): Rolled => {
  const { flat, from, to } = piece;
  const ends = (deg: number) => ({ from: flat.at(deg, 1), to: flat.at(deg, s.smallShare) });
  const [start, end] = withinOf(piece);
  const count = linesFor(to - from);
  const step = (end - start) / count;
  const lines = Array.from({ length: count - 1 }, (_, i): RulingLine => {
    const deg = start + (i + 1) * step;
    return { ...ends(deg), turnDeg: wallTurnDeg(s.surface, deg - step / 2, deg + step / 2) };
  });
  return {
    panel: 'wall',
    direction: v.faceOut === 'lower' ? 'up' : 'down',
    lines,
    marks: markedDegs(piece).map((deg): RollMark => ({
      ...ends(deg),
      called: `${figure(deg - from)} deg`,
    })),
    sizes: {
      insideRadiusMm: [s.smallRadiusMm - v.thicknessMm / 2, s.largeRadiusMm - v.thicknessMm / 2],
      angleDeg: 360 / v.pieces,
      aroundMm: [
        (2 * Math.PI * s.smallRadiusMm) / v.pieces,
        (2 * Math.PI * s.largeRadiusMm) / v.pieces,
      ],
    },
  };
};

/** Lines of the cone that run over metal from end to end lie between these. */
const withinOf = ({ large, small }: FlatPiece): readonly [number, number] => [
  Math.max(large[0], small[0]),
  Math.min(large[1], small[1]),
];

const markedDegs = (piece: FlatPiece): number[] => {
  const [start, end] = withinOf(piece);
  return Array.from({ length: 360 / MARK_DEG }, (_, i) => piece.from + (i + 1) * MARK_DEG).filter(
    (deg) => deg > start && deg < end - 1 && deg <= piece.to,
  );
};

/** What the inputs mean: both ends in their planes, and the seam as wide or lapped as it was given. */
const wishesOf = (v: Cone, s: ConeSizes, { flat, from, large, small }: FlatPiece): Wish[] => {
  const [x, y] = flat.way(from);
  const on = {
    panel: 'wall',
    frame: { at: [0, 0], axis: [x, y], round: [-y, x] },
    shape: { kind: 'cone', ...s.surface, startDeg: from },
  } as const;
  const at = (degs: readonly [number, number], share: number) =>
    [flat.at(degs[0], share), flat.at(degs[1], share)] as const;
  const apart = (radiusMm: number, [a, b]: readonly [number, number]): number =>
    Math.abs(2 * radiusMm * Math.sin(((b - a) * Math.PI) / 360));
  const [outer, inner] = [at(large, 1), at(small, s.smallShare)];
  const up = [0, 0, 1] as const;
  return [
    rolledWish('largeDiameter, across the seam', apart(s.largeRadiusMm, large), on, outer),
    rolledWish('smallDiameter, across the seam', apart(s.smallRadiusMm, small), on, inner),
    rolledWish('height, large end in its plane', 0, on, outer, { at: [0, 0, 0], normal: up }),
    rolledWish('offset, small end in its plane', 0, on, [inner[1], inner[0]], {
      at: [0, 0, v.height],
      normal: up,
    }),
  ];
};

const said = (v: Cone, s: ConeSizes): Finding =>
  note(
    'roll-wall',
    `Roll or bump the wall along its marked lines, which all point at the apex, to ${figure(2 * s.smallRadiusMm - v.thicknessMm)} inside at the small end and ${figure(2 * s.largeRadiusMm - v.thicknessMm)} at the large one, ${v.faceOut === 'lower' ? 'the face that the drawing shows' : 'the other face'} inside; hold the small end back so that it goes through slower. Nothing is taken off for a fold.`,
  );

/**
 * Sizes to set the pattern out with a compass. Of a right cone: slant = sqrt(h^2 + ((D - d) / 2)^2),
 * the arcs are proportional to the diameters, and the sector is 180 (D - d) / slant.
 */
const reportOf = (v: Cone, s: ConeSizes, piece: FlatPiece): Report => {
  const outer = lineMm(s.surface, 0);
  const sector = piece.flat.wholeDeg;
  const chordOf = (radius: number): number => 2 * radius * Math.sin((sector * Math.PI) / 360);
  const riseOf = (radius: number): number => radius * (1 - Math.cos((sector * Math.PI) / 360));
  const right: ReportFigure[] = [
    { name: 'radius of the large arc', value: outer, unit: 'mm', about: 'from the apex' },
    { name: 'radius of the small arc', value: outer * s.smallShare, unit: 'mm' },
    { name: 'slant', value: outer * (1 - s.smallShare), unit: 'mm' },
    {
      name: 'angle of the sector',
      value: sector,
      unit: 'deg',
      about: 'of one piece, seam left out',
    },
    {
      name: 'chord of the large arc',
      value: chordOf(outer),
      unit: 'mm',
      about: 'from seam to seam',
    },
    { name: 'chord of the small arc', value: chordOf(outer * s.smallShare), unit: 'mm' },
    { name: 'rise of the large arc', value: riseOf(outer), unit: 'mm', about: 'over its chord' },
    { name: 'rise of the small arc', value: riseOf(outer * s.smallShare), unit: 'mm' },
  ];
  return {
    figures: [
      ...(v.offset === 0 ? right : []),
      { name: 'inside at the small end', value: 2 * s.smallRadiusMm - v.thicknessMm, unit: 'mm' },
      { name: 'inside at the large end', value: 2 * s.largeRadiusMm - v.thicknessMm, unit: 'mm' },
      ...bumpFigures(s.largeRadiusMm - v.thicknessMm / 2, v.thicknessMm, 360 / v.pieces),
    ],
    tables: [lineTable(s, piece)],
  };
};

/** From line to line: with three of these lengths each next point is struck with a compass. */
const lineTable = (
  s: ConeSizes,
  { flat, from, to }: FlatPiece,
): NonNullable<Report['tables']>[number] => {
  const count = Math.max(2, Math.round((to - from) / MARK_DEG));
  const degs = Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
  return {
    title: 'Lines of the wall, from seam to seam on the middle of the sheet',
    columns: [
      { name: 'round', unit: 'deg' },
      { name: 'from the apex', unit: 'mm' },
      { name: 'line', unit: 'mm' },
      { name: 'chord from the last, large end', unit: 'mm' },
      { name: 'small end', unit: 'mm' },
      { name: 'across, last large to this small', unit: 'mm' },
    ],
    rows: degs.map((deg, i) => {
      const last = degs[Math.max(0, i - 1)] as number;
      return [
        deg - from,
        lineMm(s.surface, deg),
        lineMm(s.surface, deg) * (1 - s.smallShare),
        distance(flat.at(last, 1), flat.at(deg, 1)),
        distance(flat.at(last, s.smallShare), flat.at(deg, s.smallShare)),
        distance(flat.at(last, 1), flat.at(deg, s.smallShare)),
      ];
    }),
  };
};
