import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { AT_HOME, type Pose } from '../../geometry/pose.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Drawing } from '../../model/drawing.ts';
import { type Cope, copeOn, meanOf, placesRound, spanOf, type Span } from './cope.ts';
import type { Tube } from './cut-back.ts';
import type { CopeFlaw } from './flaw.ts';
import { headerHole } from './header-hole.ts';
import type { HeaderSeat, Seat } from './seat.ts';
import { cutStrut, type EndsMeet } from './two-ends.ts';
import { type Wrap, wrapOf } from './wrap.ts';
import { placeWord, seatText, zeroText } from './seat-text.ts';
import { drawnHole, type DrawnPattern, drawnWrap, oneAboveAnother } from './wrap-drawing.ts';

/** A tube with one end on a seat, and the other on another or cut square. */
export interface CopedAsked {
  readonly tube: Tube;
  readonly seat: Seat;
  /** From the node of the first end to that of the other, or to where it is cut square, mm. */
  readonly lengthMm: number;
  readonly other?: { readonly seat: Seat; readonly clockDeg: number } | undefined;
  /** Whether the line for a wall that is ground to a knife edge is drawn as well. */
  readonly hasKnife: boolean;
  /** Whether the hole that opens the header to the branch's bore is drawn. */
  readonly hasHeaderHole: boolean;
  readonly paperMm: number;
}

export interface CopedEnd {
  readonly cope: Cope;
  readonly wrap: Wrap;
}

export interface Coped {
  readonly asked: CopedAsked;
  readonly ends: readonly CopedEnd[];
  /** Where the layers of its wall begin and end, from the node of its first end. */
  readonly startMm: (radiusMm: number, roundDeg: number) => number;
  readonly endMm: (radiusMm: number, roundDeg: number) => number;
  /** What is left along the generators of the finished tube. */
  readonly left: Span;
  /** The same on the mean, by which the finished tube has its mass. */
  readonly meanMm: number;
  /** Length of tube to begin with. */
  readonly cutLengthMm: number;
  /** Its patterns under a name, which stands on each. */
  readonly patterns: (name: string) => Patterns;
}

/** A drawing with the room that it takes, its lower left corner at the origin. */
export interface Patterns {
  readonly drawing: Drawing;
  readonly widthMm: number;
  readonly heightMm: number;
}

export type CopedMade =
  | { readonly ok: true; readonly coped: Coped }
  | { readonly ok: false; readonly end: 0 | 1; readonly flaw: CopeFlaw | EndsMeet };

/** A tube cut and drawn as asked, or what keeps which end from it. */
export function copedTube(asked: CopedAsked): CopedMade {
  const cut = asked.other === undefined ? cutSquare(asked) : cutAtBoth(asked, asked.other);
  if (!cut.ok) return cut;
  const [first, second] = cut.copes;
  const copes = second === undefined ? [first] : [first, second];
  const ends = copes.map((cope): CopedEnd => ({ cope, wrap: wrapFor(asked, cope) }));
  return {
    ok: true,
    coped: {
      asked,
      ends,
      startMm: first.layerMm,
      endMm: (radiusMm, deg) =>
        asked.lengthMm - (second?.layerMm(radiusMm, (asked.other?.clockDeg ?? 0) - deg) ?? 0),
      left: cut.left,
      meanMm: asked.lengthMm - sum(ends.map(({ cope }) => meanOf(cope.fitMm))),
      cutLengthMm: cut.cutLengthMm,
      patterns: (name) => {
        const { items, ...room } = oneAboveAnother(patternsOf(asked, ends, name));
        return { drawing: { title: name, items }, ...room };
      },
    },
  };
}

const sum = (all: readonly number[]): number => all.reduce((total, one) => total + one, 0);

type Cut =
  | {
      readonly ok: true;
      readonly copes: readonly [Cope, Cope?];
      readonly left: Span;
      readonly cutLengthMm: number;
    }
  | Extract<CopedMade, { ok: false }>;

const cutAtBoth = (
  { tube, seat, lengthMm }: CopedAsked,
  { seat: second, clockDeg }: { readonly seat: Seat; readonly clockDeg: number },
): Cut => {
  const made = cutStrut({ tube, nodesMm: lengthMm, seats: [seat, second], clockDeg });
  if (!made.ok) return made;
  const { copes, left, stockMm } = made.strut;
  return { ok: true, copes, left, cutLengthMm: stockMm };
};

const cutSquare = ({ tube, seat, lengthMm }: CopedAsked): Cut => {
  const made = copeOn(tube, seat);
  if (!made.ok) return { ok: false, end: 0, flaw: made.flaw };
  const { leastMm, mostMm } = spanOf(made.cope.fitMm);
  const left = { leastMm: lengthMm - mostMm, mostMm: lengthMm - leastMm };
  return left.leastMm > 0
    ? {
        ok: true,
        copes: [made.cope],
        left,
        cutLengthMm: left.mostMm,
      }
    : { ok: false, end: 0, flaw: { kind: 'ends-meet', given: left.leastMm, limit: 0 } };
};

const wrapFor = ({ tube, paperMm, hasKnife }: CopedAsked, cope: Cope): Wrap =>
  wrapOf({
    diameterMm: tube.diameterMm,
    paperMm,
    alongMm: cope.fitMm,
    besideMm: hasKnife ? cope.knifeMm : undefined,
  });

/** The tube of the other hand: the mirror image in the plane of its first end. */
export const mirroredAsk = (asked: CopedAsked): CopedAsked => ({
  ...asked,
  seat: mirroredSeat(asked.seat),
  ...(asked.other !== undefined && {
    other: { seat: mirroredSeat(asked.other.seat), clockDeg: -asked.other.clockDeg },
  }),
});

const mirroredSeat = (seat: Seat): Seat => {
  switch (seat.kind) {
    case 'plate':
    case 'mitre':
      return seat;
    case 'bend':
      return { ...seat, leavesDeg: -seat.leavesDeg };
    case 'header':
      return {
        ...seat,
        offsetMm: seat.offsetMm === 0 ? 0 : -seat.offsetMm,
        ...(seat.beside !== undefined && {
          beside: { ...seat.beside, roundDeg: -seat.beside.roundDeg },
        }),
      };
  }
};

/** Both ends of a mitred piece are cut by one pattern. */
const patternedEnds = (ends: readonly CopedEnd[]): readonly CopedEnd[] =>
  ends[0]?.cope.seat.kind === 'mitre' ? ends.slice(0, 1) : ends;

const END_NAMES = ['end 1', 'end 2'] as const;

const patternsOf = (asked: CopedAsked, ends: readonly CopedEnd[], name: string): DrawnPattern[] => [
  ...patternedEnds(ends).map(({ wrap, cope: { seat } }, i) =>
    drawnWrap({
      wrap,
      zero: zeroText(seat),
      texts: [
        ends.length > 1 ? `${name} ${seat.kind === 'mitre' ? 'both ends' : END_NAMES[i]}` : name,
        seatText(seat),
        `edge ${wrap.edgeMm} mm from ${placeWord(seat)}`,
        ...(asked.hasKnife ? ['thin line: knife edge'] : []),
      ],
      // A mitre has both zeros on one line.
      ...(asked.other !== undefined &&
        seat.kind !== 'mitre' && {
          lines: [{ roundDeg: asked.other.clockDeg, text: '0 of the other end' }],
        }),
    }),
  ),
  ...(asked.hasHeaderHole && asked.seat.kind === 'header'
    ? [holePattern(asked, asked.seat, name)]
    : []),
];

const HOLE_POINTS = 180;

const holePattern = ({ tube }: CopedAsked, seat: HeaderSeat, name: string): DrawnPattern =>
  drawnHole(headerHole(tube, seat, placesRound(HOLE_POINTS)), [`hole for ${name}`, seatText(seat)]);

/** Where the frame of an end's seat stands on the tube, whose axis is z from the first node on. */
export const endPose = (asked: CopedAsked, end: number): Pose => {
  if (end === 0 || asked.other === undefined) return AT_HOME;
  // Seen from the second node the tube's degrees run the other way round.
  const { clockDeg } = asked.other;
  const x: Vec3 = [cosDeg(clockDeg), sinDeg(clockDeg), 0];
  return { o: [0, 0, asked.lengthMm], x, y: [x[1], -x[0], 0], z: [0, 0, -1] };
};
