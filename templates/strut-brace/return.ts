import {
  advise,
  cross,
  distance,
  dot,
  figure,
  hasStop,
  leftOf,
  NOISE_MM,
  orInstead,
  orLess,
  orMore,
  orTry,
  pieceOf,
  rectangle,
  refuse,
  roundFreeCorners,
  setbackMm,
  sub,
  unit,
  without,
} from '../../src/template.ts';
import type { Finding, Fold, Loop, Panel, Part, Try, Vec2 } from '../../src/template.ts';
import type { CreaseLine } from './crease.ts';
import { spotsOf } from './holes.ts';
import { notchText } from './outline.ts';
import { endsSide, piecesOn, type Side, sideOf } from './side.ts';
import { type BraceHole, sideText } from './sizes.ts';
import type { StrutBrace } from './inputs.ts';

type Tree = Pick<Part, 'root' | 'panels' | 'folds'>;

export interface Returned {
  readonly tree: Tree;
  /** Of each piece, along its fold. */
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

interface Inset {
  readonly mm: number;
  /** The least from `mm` on that suits the reliefs; no more than `mm` where all is well. */
  readonly needMm: number;
}

interface ReturnPiece {
  readonly panel: Panel;
  readonly fold: Fold;
  readonly lengthMm: number;
  readonly findings: readonly Finding[];
}

function onePiece(v: StrutBrace, { panel, edge, long, insets, suffix }: Edge): ReturnPiece {
  const [start, end] = insets;
  const lengthMm = long - start.mm - end.mm;
  // Shorter it is a tab that stiffens nothing (common practice).
  const least = 4 * v.thicknessMm;
  const id = `return${suffix === '' ? '' : ` ${suffix}`}`;
  const tooShort = lengthMm >= least ? [] : [returnTooShort(v, long, insets, least)];
  const shape = roundFreeCorners(
    id,
    rectangle(0, 0, Math.max(lengthMm, least), v.returnHeight),
    [2, 3],
    v,
    [0, setback(v), 0, setback(v)],
  );
  return {
    panel: { id, outline: shape.outline, cutouts: [] },
    fold: {
      id: `R${suffix}`,
      parent: { panel, edge, from: start.mm, to: long - end.mm },
      child: { panel: id, edge: shape.edge(0) },
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

/** How findings call what the return edge is folded along: the side, with what cuts it. */
const cutSide = (
  v: StrutBrace,
): { readonly called: string; readonly inputs: readonly string[] } => {
  const cuts = [
    ...(v.notch === undefined ? [] : [notchText(v)]),
    ...(v.crease === undefined ? [] : ['crease']),
  ];
  return {
    called: `return ${v.return === undefined ? '' : sideText(v.return)}${cuts.length === 0 ? '' : ` beside ${cuts.join(' and ')}`}`,
    inputs: [
      'return',
      ...(v.notch === undefined ? [] : ['notch', 'notchWidth']),
      ...(v.crease === undefined ? [] : ['crease']),
    ],
  };
};

/** What may be changed of a side on which a return edge finds no room. */
const roomForReturn = (v: StrutBrace): readonly Try[] => [
  ...(v.notch === undefined ? [] : [{ less: 'notchWidth' }, without('notch')]),
  ...(v.outline === undefined ? ['edge'] : []),
  without('return'),
];

function returnTooShort(
  v: StrutBrace,
  long: number,
  [start, end]: readonly [Inset, Inset],
  least: number,
): Finding {
  const fits = (long - least) / 2;
  const { called, inputs } = cutSide(v);
  const inset = v.returnInset === undefined ? '' : `, with returnInset ${figure(v.returnInset)},`;
  const what = `${called} has a straight stretch of ${figure(long)} mm to fold, and stops ${figure(start.mm)} and ${figure(end.mm)} mm before its ends${inset} for reliefs and holes, which leaves less than ${figure(least)} mm`;
  const mends =
    v.returnInset !== undefined && fits > 0 && fits < v.returnInset
      ? [orLess('returnInset', fits)]
      : [];
  return orTry(
    orInstead(
      refuse(
        'return-too-short',
        [...inputs, ...(inset === '' ? [] : ['returnInset'])],
        what,
        mends,
      ),
      'choose a longer side',
    ),
    ...roomForReturn(v),
  );
}

/** A notch may be as wide as the side. */
const sideCutAway = (v: StrutBrace): Finding => {
  const { called, inputs } = cutSide(v);
  return orTry(
    orInstead(
      refuse('return-without-side', inputs, `${called} has nothing left of its side to fold`, []),
      'choose another side',
    ),
    ...roomForReturn(v),
  );
};

/**
 * A return edge that its bend takes up whole; told is the height that leaves as much flat as the
 * sheet is thick.
 */
function heightAllBend(v: StrutBrace): Finding[] {
  const taken = setback(v);
  const largest = v.returnHeight - (v.measure === 'outside' ? 2 : 1) * v.thicknessMm;
  const mends = [
    orMore('returnHeight', taken + v.thicknessMm),
    ...(largest >= 0 ? [orLess('radius', largest)] : []),
  ];
  return v.returnHeight > taken + LEAST_FLAT_MM
    ? []
    : [
        refuse(
          'leg-too-short',
          ['returnHeight'],
          `returnHeight ${figure(v.returnHeight)} is all bend, since its bend takes ${figure(taken)} mm of it`,
          mends,
        ),
      ];
}

/** Flat metal narrower than this, mm, is none. */
const LEAST_FLAT_MM = 1e-3;

const setback = (v: StrutBrace): number =>
  setbackMm(90, v.insideRadiusMm, v.thicknessMm, v.measure);

const reliefNearHole = (insets: readonly Inset[]): readonly Finding[] => {
  const short = insets.filter(({ mm, needMm }) => mm < needMm - NOISE_MM);
  if (short.length === 0) return [];
  const need = Math.max(...short.map(({ needMm }) => needMm));
  const given = figure(short[0]?.mm ?? 0);
  return [
    advise(
      'relief-near-hole',
      ['returnInset'],
      `returnInset ${given} leaves a relief less than two thicknesses of metal to a hole, or less than one to the end of its side`,
      [orMore('returnInset', need), without('returnInset')],
    ),
  ];
};

/** A relief is as wide and as deep, from the side in, as `flatten` cuts it. */
const reliefSize = (v: StrutBrace): { readonly wide: number; readonly deep: number } => {
  const wide = v.reliefShape === 'slit' ? v.leastSlotMm : Math.max(v.thicknessMm, v.leastSlotMm);
  return { wide, deep: setback(v) + Math.max(v.insideRadiusMm + v.thicknessMm, wide / 2) };
};

/**
 * How far the return stops before one end of its edge. A given `returnInset` holds at the ends of
 * the side; where a crease or a notch cuts the side it stops as it must.
 */
function insetAt(
  v: StrutBrace,
  side: Side,
  end: Vec2,
  other: Vec2,
  holes: readonly BraceHole[],
  crease: CreaseLine | undefined,
): Inset {
  const { wide } = reliefSize(v);
  const isOwn = endsSide(side, end);
  const atCrease = !isOwn && crease !== undefined ? besideCrease(v, side, end, crease) : 0;
  const from = (least: number): number => passHoles(v, side, end, other, holes, least);
  const least = atCrease + wide + v.thicknessMm;
  if (!isOwn || v.returnInset === undefined) return { mm: from(least), needMm: 0 };
  // From end to end there is no relief.
  return {
    mm: v.returnInset,
    needMm: v.returnInset === 0 ? 0 : from(Math.max(least, v.returnInset)),
  };
}

/**
 * Along the side from where the crease crosses it: its bend, and what a slanting crease comes
 * nearer by within the depth of the relief. And so far that the two returns do not meet when the
 * crease turns them towards each other by half its angle each.
 */
function besideCrease(v: StrutBrace, side: Side, end: Vec2, [from, to]: CreaseLine): number {
  const [along, line] = [unit(sub(side.to, side.from)), unit(sub(to, from))];
  const sine = Math.abs(cross(along, line));
  if (sine < 0.01 || Math.abs(cross(line, sub(end, from))) > 1) return 0;
  const { deep } = reliefSize(v);
  const zone =
    setbackMm(v.creaseAngle, v.insideRadiusMm, v.thicknessMm, v.measure) / sine +
    deep * (Math.abs(dot(along, line)) / sine);
  const lean = v.returnHeight * Math.tan((v.creaseAngle * Math.PI) / 360) + v.cornerGapMm / 2;
  return Math.max(zone, lean);
}

/**
 * The least inset from `least` on whose relief keeps two thicknesses of metal to every hole (common
 * practice).
 */
function passHoles(
  v: StrutBrace,
  side: Side,
  end: Vec2,
  other: Vec2,
  holes: readonly BraceHole[],
  least: number,
): number {
  const { wide, deep } = reliefSize(v);
  const dir = unit(sub(other, end));
  const into = leftOf(unit(sub(side.to, side.from)));
  const refused = holes
    .flatMap((hole) => spotsOf(hole, 2 * v.thicknessMm))
    .flatMap(({ centre, radius }) => {
      const [at, off] = [dot(sub(centre, end), dir), dot(sub(centre, end), into)];
      const below = Math.max(0, off - deep);
      const half = below >= radius ? 0 : Math.sqrt(radius * radius - below * below);
      return half === 0 ? [] : [[at - half, at + half + wide] as const];
    });
  // From low to high, so that one that is passed is not met again.
  return refused
    .toSorted((a, b) => a[0] - b[0])
    .reduce((inset, [low, high]) => (inset > low && inset < high - NOISE_MM ? high : inset), least);
}
