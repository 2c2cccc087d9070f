import { assemble, hasStop, placeHoles, rectangle, roundFreeCorners } from '../../src/template.ts';
import type { Built, FreeCorner, GivenFold, Loop, Panel } from '../../src/template.ts';
import { beadsOf, formedBeads } from './beads.ts';
import type { Vent } from './inputs.ts';
import { impossibleVent } from './limits.ts';
import { formedLouvres, lancesOf, louvresOf } from './louvres.ts';
import { ventNotes } from './notes.ts';
import { ventReport } from './report.ts';
import {
  foldOf,
  grownMm,
  outsideVent,
  type OutsideVent,
  setback90Mm,
  type Side,
  SIDES,
  trimAtMm,
} from './sizes.ts';
import { ventWishes } from './wishes.ts';

/** Names of the folds, counter-clockwise from the bottom. */
const foldName = (side: Side): string => 'ABCD'.charAt(SIDES.indexOf(side));

/** A face with flanges on chosen sides, louvres and beads on it. */
export function ventPanel(given: Vent): Built {
  const v = outsideVent(given);
  const findings = impossibleVent(v);
  if (findings.length > 0) return { findings };
  const [louvres, beads] = [louvresOf(v), beadsOf(v)];
  const outline = faceOutline(v);
  const flanges = SIDES.filter((side) => foldOf(v, side) !== undefined).map((side) =>
    flangeOf(v, side),
  );
  const wrong = [...outline.findings, ...flanges.flatMap((one) => one.findings)];
  if (hasStop(wrong)) return { findings: wrong };
  const formed = [...formedLouvres(v, louvres), ...formedBeads(v, beads)];
  const holes = placeHoles('holes', v.holes, {
    thicknessMm: v.thicknessMm,
    origin: [v.added.louvresAcross, v.added.louvresUp],
    across: [0, 1],
    along: [1, 0],
    spanMm: [given.height, given.width],
  });
  return {
    part: assemble(v, {
      root: 'face',
      panels: [
        {
          id: 'face',
          outline: outline.outline,
          cutouts: [...lancesOf(v, louvres), ...holes],
          ...(formed.length > 0 && { formed }),
        },
        ...flanges.map(({ panel }) => panel),
      ],
      folds: flanges.map(({ fold }) => fold),
      wishes: ventWishes(given),
    }),
    findings: ventNotes(v, { louvres, beads, holes }),
    report: ventReport(v, louvres.length, beads),
  };
}

const after = (side: Side): Side => SIDES[(SIDES.indexOf(side) + 1) % 4] as Side;

/** The face with the margins that are trimmed off where no flange carries them. */
function faceOutline(v: OutsideVent): ReturnType<typeof roundFreeCorners> {
  const [bottom, right, top, left] = SIDES.map((side) => grownMm(v, side)) as [
    number,
    number,
    number,
    number,
  ];
  const plain = rectangle(-left, -bottom, v.width + left + right, v.height + bottom + top);
  const free = SIDES.filter((side) => foldOf(v, side) === undefined);
  const corners = free
    .filter((side) => free.includes(after(side)))
    .map((side): FreeCorner => [side, after(side)]);
  return roundFreeCorners('face', plain, corners, v, bentAway(v, free));
}

/** How much of each free edge the bends at its two ends take. */
const bentAway = (v: OutsideVent, free: readonly Side[]): Readonly<Record<string, number>> =>
  Object.fromEntries(
    free.map((side) => [
      side,
      SIDES.filter(
        (other) =>
          foldOf(v, other) !== undefined && (after(other) === side || after(side) === other),
      ).length * setback90Mm(v),
    ]),
  );

interface Flange {
  readonly panel: Panel;
  readonly fold: GivenFold;
  readonly findings: ReturnType<typeof roundFreeCorners>['findings'];
}

/** A flange, seen with its fold below; its margin is on its free edge. */
function flangeOf(v: OutsideVent, side: Side): Flange {
  const id = `${side} flange`;
  const before = SIDES.find((other) => after(other) === side) as Side;
  const span = side === 'bottom' || side === 'top' ? v.width : v.height;
  const deep = v.flange + trimAtMm(v, side);
  const plain: Loop = rectangle(0, 0, span + grownMm(v, before) + grownMm(v, after(side)), deep);
  // The panel meets the face backwards: its right end lies at the side before it.
  const isFree = (neighbour: Side): boolean => foldOf(v, neighbour) === undefined;
  const ends: readonly FreeCorner[] = [
    ...(isFree(before) ? [['right', 'top'] as const] : []),
    ...(isFree(after(side)) ? [['top', 'left'] as const] : []),
  ];
  const shape = roundFreeCorners(id, plain, ends, v, {
    right: setback90Mm(v),
    left: setback90Mm(v),
  });
  return {
    panel: { id, outline: shape.outline, cutouts: [] },
    fold: {
      id: foldName(side),
      parent: { panel: 'face', edge: side },
      child: { panel: id, edge: 'bottom' },
      angleDeg: 90,
      direction: foldOf(v, side) ?? 'up',
    },
    findings: shape.findings,
  };
}
