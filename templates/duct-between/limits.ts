import {
  cross3,
  figure,
  just,
  length3,
  loopExtents,
  note,
  orLess,
  orTry,
  refuse,
  sub3,
  unit3,
  warn,
} from '../../src/template.ts';
import type { Finding, Vec3 } from '../../src/template.ts';
import { type LaidFacet, widestSeamGapMm } from '../duct-transition/develop.ts';
import { type Facet, foldAngleDeg } from '../duct-transition/surface.ts';
import { firstCrossing } from './crossing.ts';
import type { DuctBetween } from './inputs.ts';

/** A blank: its facets in space, as they lie in the flat, and with their seams cut back. */
export interface Blank {
  readonly chain: readonly Facet[];
  readonly root: number;
  readonly laid: readonly LaidFacet[];
  readonly kept: readonly LaidFacet[];
}

/** Inputs on which the shape of the walls depends. */
export const shapingInputs = (v: DuctBetween): string[] =>
  v.farAt === undefined
    ? ['length', 'offsetRight', 'offsetUp', 'faceRight', 'faceUp', 'farTurn']
    : ['farAt', 'farTurn'];

/** Findings on walls that run through each other, or whose folds leave no flat between them. */
export const impossibleWalls = (v: DuctBetween, ring: readonly Facet[]): Finding[] => {
  const crossing = firstCrossing(ring);
  if (crossing !== undefined) {
    const [x, y, z] = crossing.map((c) => figure(c, 0));
    const [place = ''] = shapingInputs(v);
    return [
      orTry(
        refuse(
          'duct-walls-cross',
          ['near', 'far', place],
          `the walls from near to far with this ${place} run through each other, at ${x} to the right, ${y} up and ${z} out`,
          [],
          'turn the far opening so that its sides lie as those of the near one do, or give more length',
        ),
        ...shapingInputs(v).filter((input) => input !== 'farAt'),
      ),
    ];
  }
  return foldsTooClose(v, ring);
};

/**
 * A bend of inside radius r takes r' A / 2 of the middle of the sheet on either side of its line,
 * r' = r + t / 2 being the radius there.
 */
export const bendHalfMm = (
  { insideRadiusMm: r, thicknessMm: t }: DuctBetween,
  angleDeg: number,
): number => ((r + t / 2) * Math.abs(angleDeg) * Math.PI) / 360;

/** The width of a facet where its two folds are farthest apart. */
export const widestMm = ({ points, edges }: Facet): number => {
  const exit = edges.indexOf('exit');
  const [a, b] = [points[0], points[1]] as [Vec3, Vec3];
  const [c, d] = [points[exit], points[(exit + 1) % points.length]] as [Vec3, Vec3];
  const off = (p: Vec3, from: Vec3, to: Vec3): number =>
    length3(cross3(unit3(sub3(to, from)), sub3(p, from)));
  return Math.max(off(c, a, b), off(d, a, b), off(a, c, d), off(b, c, d));
};

const foldsTooClose = (v: DuctBetween, ring: readonly Facet[]): Finding[] => {
  const short = ring.map((facet, i) => {
    const before = ring[(i + ring.length - 1) % ring.length] as Facet;
    const after = ring[(i + 1) % ring.length] as Facet;
    const bends =
      bendHalfMm(v, foldAngleDeg(before, facet)) + bendHalfMm(v, foldAngleDeg(facet, after));
    return { width: widestMm(facet), bends };
  });
  // The one that asks for the least radius: bends take in proportion to it.
  const worst = short.reduce((a, b) => (b.width * a.bends < a.width * b.bends ? b : a));
  if (worst.width > worst.bends) return [];
  const { insideRadiusMm: r, thicknessMm: t } = v;
  const most = ((r + t / 2) * worst.width) / worst.bends - t / 2;
  return [
    orTry(
      refuse(
        'folds-too-close',
        ['radius', v.walls === 'smooth' ? 'divisions' : 'chordOff'],
        `two folds stand ${figure(worst.width)} mm apart at most, and their bends of radius ${figure(r)} take ${figure(worst.bends)}, with ${v.walls === 'smooth' ? `divisions ${v.divisions}` : `chordOff ${figure(v.chordOff)}`}`,
        most > 0 ? [orLess('radius', most)] : [],
        'round the corners of the openings more, or leave the rounds out',
      ),
      v.walls === 'smooth' ? { less: 'divisions' } : 'chordOff',
    ),
  ];
};

/** Finding on a seam whose gap removes a facet, or separates one from the next. */
export const noSeamLeft = (v: DuctBetween, blanks: readonly Blank[]): Finding => {
  const widest = Math.min(...blanks.map(({ laid }) => widestSeamGapMm(laid, v.cornerGapMm)));
  return orTry(
    refuse(
      'seam-cuts-through',
      ['cornerGap', 'seamSide'],
      `cornerGap ${figure(v.cornerGapMm)} cuts walls off at a seam of seamSide ${v.seamSide}`,
      [
        ...(widest > 0 ? [orLess('cornerGap', widest)] : []),
        ...(v.blanks !== 'apart' && v.seamPlace === 'fold' ? [just('seamPlace', 'flat')] : []),
      ],
      'put the seams on another side',
    ),
    'cornerGap',
    ...(['top', 'right', 'bottom', 'left'] as const)
      .filter((side) => side !== v.seamSide)
      .map((side) => just('seamSide', side)),
  );
};

const sizeOf = ({ kept }: Blank): readonly [number, number] => {
  const boxes = kept.flatMap(({ outline }) => loopExtents(outline) ?? []);
  const [w, h] = [
    Math.max(...boxes.map((b) => b.maxX)) - Math.min(...boxes.map((b) => b.minX)),
    Math.max(...boxes.map((b) => b.maxY)) - Math.min(...boxes.map((b) => b.minY)),
  ];
  return [Math.max(w, h), Math.min(w, h)];
};

/** Whether a blank lies on the sheet as it is drawn, or a quarter turned. */
export const fitsSheet = ({ sheetLength, sheetWidth }: DuctBetween, blank: Blank): boolean => {
  const [long, short] = sizeOf(blank);
  return long <= Math.max(sheetLength, sheetWidth) && short <= Math.min(sheetLength, sheetWidth);
};

/** Warning on blanks that do not fit the sheet, however many there are. */
export const overSheet = (v: DuctBetween, blanks: readonly Blank[]): Finding[] => {
  const large = blanks.find((blank) => !fitsSheet(v, blank));
  if (large === undefined) return [];
  const [long, short] = sizeOf(large);
  return [
    warn(
      'blank-over-sheet',
      `A blank takes about ${figure(long, 0)} x ${figure(short, 0)} mm of sheet, more than the ${figure(v.sheetLength)} x ${figure(v.sheetWidth)} of the sheet: give blanks ${v.blanks === 'four' || v.blanks === 'auto' ? 'auto' : 'four'} and the size of a larger sheet, or make the duct in two lengths.`,
    ),
  ];
};

/** What is to be known of a blank that goes all the way round, at the machine. */
export const closesRound = (blanks: readonly Blank[]): Finding[] =>
  blanks.length > 1
    ? []
    : [
        note(
          'closes-round-tool',
          'One blank goes all the way round and closes on the tool: fold from both ends towards the middle, the last folds short of their angle, and spring it off the end of the fingers (common practice). With blanks two neither half closes.',
        ),
      ];
