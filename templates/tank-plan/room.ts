import { figure, outlineLoop, refuse, without } from '../../src/template.ts';
import type { Finding, GivenHeights, GivenOutline, Loop, Place, Vec2 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { leansOf, type Off } from './lean.ts';
import { sheetOf } from './panels.ts';
import { type Fitted, planeThrough, type Room, type Sounding } from './planes.ts';
import { seamRoom } from './seam-plate.ts';

/** A room as it was measured, and how well its heights lie in planes. */
export interface MeasuredRoom {
  readonly room: Room;
  readonly outline: Loop;
  /** Differences of heights, where more than three were given, and of the second outline. */
  readonly off: readonly Off[];
  /** The lines on which baffles were asked for, in plan. */
  readonly baffleLines: readonly BaffleLine[];
}

/** A line in plan, from its first place to its second, mm. */
export type BaffleLine = readonly [Vec2, Vec2];

type Read<T> = { readonly value: T } | { readonly findings: readonly Finding[] };

/** The room that the inputs describe, or what keeps them from describing one. */
export const measuredRoom = (v: TankPlan): Read<MeasuredRoom> => {
  const named = new Map(
    (v.points?.points ?? []).map(({ name, x, y }): [string, Vec2] => [name, [x, y]]),
  );
  const outline = straightOutline('outline', v.outline, named);
  if ('findings' in outline) return outline;
  const corners = outline.value.map(({ x, y }): Vec2 => [x, y]);
  const [floor, top] = [faceOfHeights(v, 'floor', named), faceOfHeights(v, 'top', named)];
  const stray = strayNumbers(v, corners.length);
  const findings = [floor, top].flatMap((read) => ('findings' in read ? read.findings : []));
  if ('findings' in floor || 'findings' in top || stray.length > 0)
    return { findings: [...findings, ...stray] };
  const over =
    v.outlineOver === undefined ? undefined : straightOutline('outlineOver', v.outlineOver, named);
  if (over !== undefined && 'findings' in over) return over;
  const leans = leansOf(v, corners, over?.value);
  if ('findings' in leans) return leans;
  const baffleLines = linesOf(v, named);
  if ('findings' in baffleLines) return baffleLines;
  return {
    value: {
      outline: outline.value,
      room: {
        corners,
        outlineAtMm: v.outlineAt,
        leanDeg: leans.deg,
        floor: floor.value.fitted.fall,
        top: top.value.fitted.fall,
        steps: v.floorStep ?? [],
        ...(v.measure === 'outside' && { seams: seamRoom(sheetOf(v)) }),
      },
      off: [...floor.value.off, ...top.value.off, ...leans.off],
      baffleLines: baffleLines.value,
    },
  };
};

const straightOutline = (
  input: 'outline' | 'outlineOver',
  given: GivenOutline,
  named: ReadonlyMap<string, Vec2>,
): Read<Loop> => {
  const strangers = given.corners.flatMap(({ place }) =>
    'name' in place && !named.has(place.name) ? [place.name] : [],
  );
  if (strangers.length > 0) return { findings: [unknown(input, strangers, named)] };
  const read = outlineLoop(given, (name) => named.get(name));
  if (!read.ok)
    return {
      findings: [
        refuse(
          'outline-wrong',
          [input],
          `${input} cannot be drawn through its points`,
          [],
          read.mend ?? 'check them',
        ),
      ],
    };
  const arcs = read.value.filter(({ bulge }) => bulge !== 0).length;
  return arcs === 0
    ? { value: read.value }
    : {
        findings: [
          refuse(
            'plan-not-straight',
            [input],
            `${input} has ${arcs === 1 ? 'an arc' : `${arcs} arcs`}, and the sides of a tank are folded from corner to corner`,
            [],
            'cut the corner with c in place of r, or give points along the arc',
          ),
        ],
      };
};

interface Face {
  readonly fitted: Fitted;
  readonly off: MeasuredRoom['off'];
}

/** Floor or top as a plane through its heights. */
const faceOfHeights = (
  v: TankPlan,
  input: 'floor' | 'top',
  named: ReadonlyMap<string, Vec2>,
): Read<Face> => {
  const given: GivenHeights = v[input];
  if (given.levelMm !== undefined)
    return {
      value: {
        fitted: { fall: { heightMm: given.levelMm, alongX: 0, alongY: 0 }, offMm: [] },
        off: [],
      },
    };
  const placeOf = (name: string): Vec2 | undefined =>
    named.get(name) ?? cornerCalled(v, named, name);
  const strangers = given.at.flatMap(({ place }) =>
    'name' in place && placeOf(place.name) === undefined ? [place.name] : [],
  );
  if (strangers.length > 0) return { findings: [unknown(input, strangers, named)] };
  const soundings = given.at.map(({ place, mm }): Sounding => {
    const at = 'at' in place ? place.at : (placeOf(place.name) as Vec2);
    return {
      at,
      heightMm: mm,
      called: `${input} at ${'at' in place ? at.map((c) => figure(c)).join(',') : place.name}`,
    };
  });
  const fitted = planeThrough(soundings);
  return fitted === undefined
    ? { findings: [noPlane(input, soundings)] }
    : {
        value: {
          fitted,
          off:
            soundings.length === 3
              ? []
              : soundings.map(({ called }, i): Off => ({
                  input,
                  called,
                  mm: fitted.offMm[i] ?? 0,
                })),
        },
      };
};

/** The lines of the baffles, whose ends may have names or be points of the outline. */
const linesOf = (v: TankPlan, named: ReadonlyMap<string, Vec2>): Read<readonly BaffleLine[]> => {
  const lines = v.baffleLines ?? [];
  const placeOf = (place: Place): Vec2 | undefined =>
    'at' in place ? place.at : (named.get(place.name) ?? cornerCalled(v, named, place.name));
  const strangers = lines
    .flat()
    .flatMap((place) => ('name' in place && placeOf(place) === undefined ? [place.name] : []));
  if (strangers.length > 0) return { findings: [unknown('baffleLines', strangers, named)] };
  return { value: lines.map(([from, to]) => [placeOf(from) as Vec2, placeOf(to) as Vec2]) };
};

/** A point of the outline by its number, before anything is cut off it. */
const cornerCalled = (
  v: TankPlan,
  named: ReadonlyMap<string, Vec2>,
  name: string,
): Vec2 | undefined => {
  const place = v.outline.corners.find(({ number }) => String(number) === name)?.place;
  if (place === undefined) return undefined;
  return 'at' in place ? place.at : named.get(place.name);
};

const unknown = (
  input: string,
  names: readonly string[],
  named: ReadonlyMap<string, Vec2>,
): Finding =>
  refuse(
    'unknown-point',
    [input, 'points'],
    `${input} names ${[...new Set(names)].join(', ')}, but ${named.size === 0 ? 'no points are given' : `the points are ${[...named.keys()].join(', ')}`}`,
    [],
    named.size === 0 ? 'give points' : 'name one of them',
    'write x,y',
  );

const noPlane = (input: 'floor' | 'top', soundings: readonly Sounding[]): Finding =>
  refuse(
    'heights-too-few',
    [input],
    soundings.length < 3
      ? `${input} has ${soundings.length} ${soundings.length === 1 ? 'height at a place' : 'heights'}, which fix no plane`
      : `the places of ${input} lie in a line, and nothing says how it falls across that`,
    [],
    'give three heights at places that make a triangle, or one figure for a level face',
  );

/** Sides and corners that are named by numbers which the outline does not have. */
const strayNumbers = (v: TankPlan, count: number): Finding[] => {
  const strange = (input: string, what: string, numbers: readonly number[]): Finding[] =>
    numbers.every((n) => n <= count)
      ? []
      : [
          refuse(
            'no-such-side',
            [input],
            `${input} names ${what} ${numbers.filter((n) => n > count).join(' and ')}, and the outline has ${count}, a corner that is cut off counting as two`,
            input === 'lean' ? [without(input)] : [],
            `name one from 1 to ${count}`,
          ),
        ];
  return [
    ...strange(
      'lean',
      'side',
      (v.lean ?? []).map(({ side }) => side),
    ),
    ...strange('seam', 'corner', [v.seam]),
    ...strange('linkOn', 'side', v.link.length === 0 ? [] : [v.linkOn]),
  ];
};
