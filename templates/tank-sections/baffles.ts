import {
  advise,
  assemble,
  diameterWish,
  figure,
  refuse,
  SAME_LENGTH_MM,
  signedArea,
} from '../../src/template.ts';
import type { Finding, Piece, Vec2 } from '../../src/template.ts';
import { equalBays, baySpacing } from '../baffle/bays.ts';
import { MOST_BAFFLES, tooManyBaffles } from '../baffle/bay-limits.ts';
import { flowIn } from '../tank-plan/baffle-flow.ts';
import { cutsMeet } from '../tank-plan/baffles.ts';
import { bayLengths, nearestFree, type Stretch } from '../tank-plan/stations.ts';
import { convexIn, cornersCut } from './baffle-outline.ts';
import { type Tank, turnOf } from './blanks.ts';
import { holeReachMm, TOP_HOLES } from './fittings.ts';
import type { TankSections } from './inputs.ts';
import { drawnIn, loopOf } from './sections.ts';
import { type Bay, bayAt, onRuling } from './surface.ts';

/** Baffles by the stations of their faces towards the first section, and what is wrong with them. */
export interface SectionBaffles {
  readonly atMm: readonly number[];
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
}

/** Air that a baffle leaves to an end and to the weld between two bays, over twice its thickness. */
const OFF_WELD_MM = 5;

/** Stretches along the stations in which no baffle may begin. */
const takenBy = (v: TankSections, { bays, firstMm, lastMm }: Tank): Stretch[] => {
  const off = 2 * v.thicknessMm + OFF_WELD_MM;
  const around = (atMm: number): Stretch => [atMm - off - v.thicknessMm, atMm + off];
  return [firstMm, lastMm, ...bays.slice(1).map(({ fromMm }) => fromMm)].map(around);
};

export const planBaffles = (
  v: TankSections,
  tank: Tank,
  walls: readonly (readonly Piece[])[],
): SectionBaffles => {
  const { atMm, findings } =
    v.baffleAt === undefined ? evenly(v, tank) : asked(v, tank, v.baffleAt);
  if (findings.length > 0) return { atMm, pieces: [], findings };
  const made = atMm.map((at, i) => baffleOf(v, tank, at, `baffle-${i + 1}`, walls));
  return {
    atMm,
    pieces: made.flatMap(({ piece }) => (piece === undefined ? [] : [piece])),
    findings: [
      ...made.flatMap(({ findings: own }) => own),
      ...longBays(v, tank, atMm),
      ...holesOn(v, atMm),
    ],
  };
};

type Placed = Pick<SectionBaffles, 'atMm' | 'findings'>;

const evenly = (v: TankSections, tank: Tank): Placed => {
  const run = tank.lastMm - tank.firstMm;
  const { count } = baySpacing(run, v.longestBay, v.thicknessMm);
  if (count >= MOST_BAFFLES)
    return {
      atMm: [],
      findings: [
        tooManyBaffles(
          'sections',
          { ...v, flange: 0, clearance: v.baffleGap },
          run,
          count,
          MOST_BAFFLES - 1,
        ),
      ],
    };
  const taken = takenBy(v, tank);
  return {
    atMm: equalBays(run, count, v.thicknessMm).stationsMm.map((at) =>
      nearestFree(tank.firstMm + at, taken),
    ),
    findings: [],
  };
};

/** Baffles where they were asked for, and what they would stand in. */
const asked = (v: TankSections, tank: Tank, atMm: readonly number[]): Placed => {
  const taken = takenBy(v, tank);
  const [[, fromMm] = [0, 0], [toMm] = [0, 0]] = taken;
  return {
    atMm,
    findings: atMm.flatMap((at, i) => {
      const isOff = at < fromMm - SAME_LENGTH_MM || at > toMm + SAME_LENGTH_MM;
      const near = taken.slice(2).find(([from, to]) => at > from && at < to);
      const before = atMm[i - 1];
      const isNear = before !== undefined && at - before < v.thicknessMm + OFF_WELD_MM;
      if (!isOff && near === undefined && !isNear) return [];
      return [
        refuse(
          'baffle-in-the-way',
          ['baffleAt'],
          isOff
            ? `baffleAt ${figure(at)} is at an end or outside the tank`
            : near === undefined
              ? `baffleAt ${figure(before ?? 0)} and ${figure(at)} leave no room between them`
              : `baffleAt ${figure(at)} is on the weld between two bays`,
          [],
          isOff
            ? `give ${figure(fromMm + 0.005)} to ${figure(toMm - 0.005)}`
            : near === undefined
              ? `give ${figure((before ?? 0) + v.thicknessMm + OFF_WELD_MM)} or more`
              : `give ${figure(near[0])} or less, or ${figure(near[1])} or more`,
        ),
      ];
    }),
  };
};

const longBays = (
  v: TankSections,
  { firstMm, lastMm }: Tank,
  atMm: readonly number[],
): Finding[] => {
  const longest = Math.max(
    ...bayLengths({ axis: 0, fromMm: firstMm, toMm: lastMm, atMm }, v.thicknessMm),
  );
  return longest <= v.longestBay + SAME_LENGTH_MM
    ? []
    : [
        advise(
          'bay-longer',
          ['longestBay', v.baffleAt === undefined ? 'sections' : 'baffleAt'],
          `a bay of ${figure(longest)} is longer than longestBay ${figure(v.longestBay)}${v.baffleAt === undefined ? ', since no baffle stands where sections are' : ', between those of baffleAt and the ends'}`,
          [{ input: 'longestBay', atLeast: Math.ceil(longest * 100) / 100 }],
        ),
      ];
};

/** Holes through which a baffle would be seen. */
const holesOn = (v: TankSections, atMm: readonly number[]): Finding[] =>
  ([...TOP_HOLES, 'drain'] as const).flatMap((input) =>
    v[input].flatMap((hole) => {
      const reach = holeReachMm(v, hole);
      const i = atMm.findIndex(
        (at) => hole.acrossMm + reach > at && hole.acrossMm - reach < at + v.thicknessMm,
      );
      const at = atMm[i];
      return at === undefined
        ? []
        : [
            advise(
              'hole-on-baffle',
              [input, v.baffleAt === undefined ? 'longestBay' : 'baffleAt'],
              `hole ${hole.number} of ${input} lies on baffle ${i + 1}, which stands at station ${figure(at)}`,
              [],
              `give station ${figure(at - reach)} or less, or ${figure(at + v.thicknessMm + reach)} or more`,
            ),
          ];
    }),
  );

/** A flat plate in the section at a station, welded all round but for its cut corners. */
const baffleOf = (
  v: TankSections,
  { bays }: Tank,
  atMm: number,
  id: string,
  walls: readonly (readonly Piece[])[],
): { readonly piece?: Piece; readonly findings: readonly Finding[] } => {
  const bay = bayAt(bays, atMm);
  const section = sectionAt(bay, atMm + v.thicknessMm / 2);
  const whole = drawnIn(
    section,
    // Both faces of a plate that is cut square stay the gap off a wall that leans over it.
    bay.facets.map(
      ({ plane: { normal } }) =>
        (v.baffleGap + (v.thicknessMm / 2) * Math.abs(normal[0])) /
        Math.hypot(normal[1], normal[2]),
    ),
  );
  const outline = cornersCut(v, bay, whole);
  if (outline === undefined)
    return { findings: [cutsMeet(id, v.baffleAt === undefined ? 'longestBay' : 'baffleAt')] };
  const area = signedArea(loopOf(section));
  const cut = signedArea(loopOf(whole)) - signedArea(outline);
  const flow = flowIn(v, id, [convexIn(outline)], area, cut);
  if ('finding' in flow) return { findings: [flow.finding] };
  const part = assemble(
    { ...v, measure: 'outside' },
    {
      root: 'baffle',
      panels: [{ id: 'baffle', outline, cutouts: flow.cutouts }],
      folds: [],
      wishes:
        flow.cutouts.length > 0
          ? [diameterWish('holeDiameter', v.holeDiameter, 'baffle', 'flow 1')]
          : [],
    },
  );
  const pose = { o: [atMm, 0, 0], x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] } as const;
  const k = bays.indexOf(bay);
  const weldedTo = (walls[k] ?? []).map((wall) => wall.id);
  return {
    piece: { id, part, standing: { poses: [pose], turn: turnOf(k, 'baffles'), weldedTo } },
    findings: [],
  };
};

/** The section of a bay at a station: a corner for each of its facets. */
export const sectionAt = ({ facets }: Bay, atMm: number): Vec2[] =>
  facets.map(({ entry }) => {
    const [, y, z] = onRuling(entry, atMm);
    return [y, z];
  });
