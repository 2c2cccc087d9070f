import {
  dot,
  figure,
  NOISE_MM,
  orInstead,
  orLess,
  orMore,
  orTry,
  refuse,
  setbackMm,
  sub,
  unit,
} from '../../src/template.ts';
import type { CommonValues, Finding, Mend } from '../../src/template.ts';
import {
  type BaffleAsk,
  goneMm,
  leastCutMm,
  type NamedInput,
  type Plate,
  type PlateCorner,
  type PlateSide,
  sideAt,
} from './plate.ts';
import {
  BAFFLE_SIDES,
  type BaffleSide,
  cornerAt,
  cornerDeg,
  edgeMm,
  sectionCorners,
  tangentMm,
} from './section.ts';

/** Findings on what cannot be cut or folded, each with a figure that can be. */
export const impossibleBaffle = (v: CommonValues, ask: BaffleAsk, plate: Plate): Finding[] => {
  const radii = radiiThatMeet(ask);
  if (radii.length > 0) return radii;
  const edges = shortEdges(v, ask, plate);
  return edges.length > 0
    ? edges
    : [
        ...cuts(v, ask, plate, 'limber', 0),
        ...cuts(v, ask, plate, 'vent', 2),
        ...flanges(v, ask, plate),
      ];
};

const text = ({ input, given }: NamedInput): string => `${input} ${figure(given)}`;

/** The input that gives the length of a side of the section. */
const inputOf = ({ named }: BaffleAsk, side: BaffleSide): NamedInput =>
  side === 'left' ? named.left : side === 'right' ? named.right : named.width;

/** Finding on rounded corners at both ends of a side that do not fit on it together. */
function radiiThatMeet(ask: BaffleAsk): Finding[] {
  const { floorRadius, roofRadius, others } = ask.named;
  const corners = sectionCorners(ask.section);
  if (floorRadius === undefined || roofRadius === undefined) return [];
  return BAFFLE_SIDES.flatMap((side, i) => {
    const ends = [i, (i + 1) % 4].map((c) => ({
      ...(c < 2 ? floorRadius : roofRadius),
      reach: tangentMm(1, cornerDeg(corners, c)),
    }));
    const long = edgeMm(corners, i);
    if (ends.reduce((sum, e) => sum + e.given * e.reach, 0) <= long + NOISE_MM) return [];
    const radii = [...new Map(ends.filter((e) => e.given > 0).map((e) => [e.input, e])).values()];
    const mends = radii.flatMap((radius): Mend[] => {
      const [own, other] = [
        ends.filter((e) => e.input === radius.input),
        ends.filter((e) => e.input !== radius.input),
      ];
      const most =
        (long - other.reduce((sum, e) => sum + e.given * e.reach, 0)) /
        own.reduce((sum, e) => sum + e.reach, 0);
      return most >= 0 ? [orLess(radius.input, most)] : [];
    });
    const size = inputOf(ask, side);
    const named = [...radii.map(({ input }) => input), size.input];
    return [
      orTry(
        refuse(
          'tank-radius-too-big',
          named,
          `${radii.map(text).join(' with ')} does not fit the ${side} of the tank, which is ${figure(long)} mm by ${text(size)}`,
          mends,
        ),
        size.input,
        ...others,
      ),
    ];
  });
}

/**
 * Least length of an edge: what the bends at its ends take where the corner stays, and room for a
 * relief at either end.
 */
const leastLeftMm = (v: CommonValues, { made, sides }: Plate, i: number): number => {
  const notch = Math.max(v.thicknessMm, v.leastSlotMm) + v.cornerGapMm;
  const end = (corner: number, neighbour: number): number =>
    notch +
    (goneMm(made[corner] as PlateCorner) > 0
      ? 0
      : sideAt(sides, neighbour).setbackMm /
        Math.sin((made[corner] as PlateCorner).angleDeg * (Math.PI / 180)));
  return end(i, i - 1) + end((i + 1) % 4, i + 1);
};

function shortEdges(v: CommonValues, ask: BaffleAsk, plate: Plate): Finding[] {
  const whole = sectionCorners(ask.section);
  return BAFFLE_SIDES.flatMap((side, i) => {
    const dir = unit(sub(cornerAt(whole, i + 1), cornerAt(whole, i)));
    // A clearance wider than the section reverses the edge.
    const length = dot(sub(cornerAt(plate.corners, i + 1), cornerAt(plate.corners, i)), dir);
    const ends = [i, (i + 1) % 4].map((c) => plate.made[c] as PlateCorner);
    const gone = ends.reduce((sum, c) => sum + goneMm(c), 0);
    const left = leastLeftMm(v, plate, i);
    if (length - gone >= left - NOISE_MM) return [];
    const shortest = [i, (i + 1) % 4].reduce(
      (sum, c, e) =>
        sum +
        (ends[e]?.cutMm === 0
          ? goneMm(plate.made[c] as PlateCorner)
          : leastCutMm(v, plate.made, plate.sides, c)),
      0,
    );
    const size = inputOf(ask, side);
    if (ends.some((c) => c.cutMm > 0) && shortest + left <= length + NOISE_MM)
      return [cutsMeet(v, plate, size, i, length, length - left)];
    const found = refuse(
      'baffle-too-small',
      [size.input],
      `${text(size)} makes the ${side} edge of the baffle ${figure(Math.max(0, length))} mm long, which leaves nothing between its corners`,
      [],
    );
    return [
      orTry(
        orInstead(
          found,
          `give ${size.input} some ${figure(Math.ceil(shortest + left - length))} mm more`,
        ),
        size.input,
        'radius',
        'clearance',
        ...ask.named.others,
      ),
    ];
  });
}

/**
 * Finding on the cuts at both ends of a side. Together they may take no more than `most`, and each
 * no less than it has to clear.
 */
function cutsMeet(
  v: CommonValues,
  { made, sides }: Plate,
  size: NamedInput,
  i: number,
  length: number,
  most: number,
): Finding {
  const ends = [i, (i + 1) % 4].map((c) => ({
    ...(made[c] as PlateCorner),
    input: c < 2 ? 'limber' : 'vent',
    least: leastCutMm(v, made, sides, c),
  }));
  const cuts = ends
    .filter((c) => c.cutMm > 0)
    .map(({ input, cutMm, least }) => ({ input, given: cutMm, least }));
  const uncut = ends.reduce((sum, c) => sum + (c.cutMm === 0 ? goneMm(c) : 0), 0);
  const named = [...new Map(cuts.map((cut) => [cut.input, cut])).values()].toSorted((a, b) =>
    a.input < b.input ? -1 : 1,
  );
  const mends = named.flatMap((cut): Mend[] => {
    const others = cuts.reduce(
      (sum, other) => sum + (other.input === cut.input ? 0 : other.given),
      0,
    );
    const room = (most - uncut - others) / cuts.filter(({ input }) => input === cut.input).length;
    return room >= cut.least ? [orLess(cut.input, room)] : [];
  });
  const both =
    named.length === 1
      ? []
      : [
          `give ${named.map(({ input }) => input).join(' and ')} together ${figure(Math.floor((most - uncut) * 100) / 100)} or less`,
        ];
  const what = `${named.map(text).join(' and ')} leave${named.length === 1 ? 's' : ''} too little of the ${BAFFLE_SIDES[i]} edge, which is ${figure(length)} mm by ${text(size)}`;
  return orTry(
    refuse(
      'corner-cuts-meet',
      [...named.map(({ input }) => input), size.input],
      what,
      mends,
      ...(mends.length < named.length ? both : []),
    ),
    size.input,
  );
}

function cuts(
  v: CommonValues,
  { named }: BaffleAsk,
  { made, sides }: Plate,
  input: 'limber' | 'vent',
  first: number,
): Finding[] {
  const pair = [first, first + 1];
  const cut = (made[first] as PlateCorner).cutMm;
  const least = Math.max(...pair.map((i) => leastCutMm(v, made, sides, i)));
  const radius = input === 'limber' ? named.floorRadius : named.roofRadius;
  const tries = ['radius', ...(radius === undefined ? [] : [radius.input])];
  if (cut > 0) {
    return cut >= least - NOISE_MM
      ? []
      : [
          orTry(
            refuse(
              'corner-cut-too-short',
              [input],
              `${input} ${figure(cut)} does not clear the rounded corner of the tank or the bends beside it`,
              [orMore(input, least)],
            ),
            ...tries,
          ),
        ];
  }
  const meetsRound = pair.some(
    (i) =>
      (made[i] as PlateCorner).roundMm > 0 &&
      (sideAt(sides, i).hasFlange || sideAt(sides, i - 1).hasFlange),
  );
  return meetsRound && radius !== undefined
    ? [
        orTry(
          refuse(
            'flange-round-corner',
            [input, radius.input],
            `${input} 0 would run a flange round the tank's rounded corner of ${text(radius)}`,
            [orMore(input, least)],
          ),
          radius.input,
        ),
      ]
    : [];
}

/** Height of the flange over its outside mould line, whichever way it was measured. */
export const outsideFlangeMm = (v: CommonValues, ask: BaffleAsk, side: PlateSide): number =>
  ask.flangeMm +
  (v.measure === 'inside'
    ? side.setbackMm - setbackMm(side.bendDeg, v.insideRadiusMm, v.thicknessMm, 'inside')
    : 0);

function flanges(v: CommonValues, ask: BaffleAsk, { sides }: Plate): Finding[] {
  const short = sides
    .filter((s) => s.hasFlange)
    .map((s) => s.setbackMm + v.thicknessMm - outsideFlangeMm(v, ask, s));
  const lacking = Math.max(0, ...short);
  return lacking > NOISE_MM
    ? [
        orTry(
          refuse('flange-too-narrow', ['flange'], `flange ${figure(ask.flangeMm)} is all bend`, [
            orMore('flange', ask.flangeMm + lacking),
          ]),
          'radius',
        ),
      ]
    : [];
}
