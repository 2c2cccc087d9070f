import {
  copedPart,
  copedTube,
  type CopedTube,
  type CutMitre,
  defineTubes,
  depthsOf,
  mitreOf,
  mitreRoundMm,
  type Report,
  type ReportTable,
  type TubePiece,
} from '../../src/template.ts';
import { radiusOf, refusal, shortInside, type Values, wallFindings } from './findings.ts';
import { inputs } from './inputs.ts';
import { mitreSchematic } from './schematic.ts';

/** A bend that is made of straight pieces of tube, cut aslant and welded. */
export default defineTubes({
  family: 'tube-mitre',
  summary: 'Bend made of mitred pieces of tube: lengths, cut angle for a saw, patterns and welds.',
  sketch: String.raw`
                 __________________
               /  \      |         |
    middle  / \     \    |   last  |  ^
          /     \     \__|_________|  | diameter
        /\         /   end           v
       |   \     /
       |      \/          + middle of the bend: radius to the axes
       |_______|          pieces: the two at the ends are half as long
       | first |          turn: from the first axis to the last
       |_______|
`,
  inputs,
  schematics: () => [mitreSchematic()],
  cautions: ['sharp-edges', 'hot-work', 'tube-licensed'],
  examples: [
    {
      title: 'Elbow of the air pipe behind the seat, a quarter turn in four pieces',
      inputs: { name: 'air-elbow', diameter: 76, wall: 2, turn: 90, pieces: 4, radius: 115 },
    },
    {
      title: 'Corner of the tailboard frame, a single mitre',
      inputs: {
        name: 'board-corner',
        diameter: 30,
        wall: 2,
        turn: 90,
        pieces: 2,
        first: 250,
        last: 250,
      },
    },
    {
      title: 'Odd on purpose: 75 degrees in inches, with straight tube at one end',
      inputs: {
        name: 'duct-turn',
        diameter: '3in',
        wall: 1.6,
        turn: 75,
        pieces: 3,
        radius: '5in',
        first: '2in',
      },
    },
  ],
  build(v) {
    const wrong = wallFindings(v);
    const made = mitreOf({
      diameterMm: v.diameter,
      turnDeg: v.turn,
      pieces: v.pieces,
      radiusMm: radiusOf(v),
    });
    if (wrong.length > 0 || !made.ok)
      return { findings: [...wrong, ...(made.ok ? [] : [refusal(v, made.flaw)])] };
    const { mitre } = made;
    const pieces = piecesOf(v, mitre);
    return {
      tubes: asPieces(v, pieces),
      findings: shortInside(v, 2 * mitre.endLengthMm(180)),
      report: reportOf(v, mitre, pieces),
    };
  },
});

interface MitrePieces {
  readonly first: CopedTube;
  readonly middle: CopedTube;
  readonly last: CopedTube;
}

const piecesOf = (v: Values, { endMm, middleMm }: CutMitre): MitrePieces => {
  const cut = cutter(v);
  return {
    first: cut(endMm + v.first, 1),
    middle: cut(middleMm, 2),
    last: cut(endMm + v.last, 1),
  };
};

/** Ends that are as long as each other are one piece, twice. */
const asPieces = (v: Values, { first, middle, last }: MitrePieces): TubePiece[] => {
  const between = v.pieces > 2 ? [{ id: 'middle', quantity: v.pieces - 2, tube: middle }] : [];
  return v.first === v.last
    ? [{ id: 'end', quantity: 2, tube: first }, ...between]
    : [{ id: 'first', tube: first }, ...between, { id: 'last', tube: last }];
};

/** Cuts a piece of a length on its axis, at one end or at both; the short sides lie in one line. */
const cutter = (v: Values) => {
  const cutDeg = v.turn / (v.pieces - 1) / 2;
  const seat = { kind: 'mitre', angleDeg: 90 - cutDeg } as const;
  return (lengthMm: number, cuts: 1 | 2): CopedTube => {
    const made = copedTube({
      tube: { diameterMm: v.diameter, wallMm: v.wall },
      seat,
      lengthMm,
      ...(cuts === 2 && { other: { seat, clockDeg: 0 } }),
      hasKnife: false,
      hasHeaderHole: false,
      paperMm: v.paper,
    });
    // A bend that is wider than its tube leaves something of every piece.
    if (!made.ok) throw new Error(`a piece is refused: ${made.flaw.kind}`);
    return copedPart(v.material, made.coped);
  };
};

const reportOf = (v: Values, mitre: CutMitre, pieces: MitrePieces): Report => {
  const sum = (of: (tube: CopedTube) => number): number =>
    of(pieces.first) + (v.pieces - 2) * of(pieces.middle) + of(pieces.last);
  return {
    figures: [
      {
        name: 'saw set to',
        value: mitre.cutDeg,
        unit: 'deg',
        about: 'from square; turn the tube half round after each cut, by a line scribed along it',
      },
      { name: 'centre-line radius', value: radiusOf(v), unit: 'mm' },
      {
        name: 'tube for all pieces',
        value: sum(({ asked }) => asked.lengthMm),
        unit: 'mm',
        about: 'sawn one behind the other off one bar, without the saw cuts',
      },
      { name: 'mass of all pieces', value: sum(({ massKg }) => massKg), unit: 'kg' },
    ],
    tables: [pieceTable(v, mitre, pieces), weldTable(v, mitre), depthTable(pieces.first)],
  };
};

/** How long the two sides of each piece are, and its axis. */
const pieceTable = (
  { pieces }: Values,
  { cutBackMm }: CutMitre,
  { first, middle, last }: MitrePieces,
): ReportTable => ({
  title: 'Pieces, in their order round the bend',
  columns: [
    { name: 'piece', unit: '' },
    { name: 'on the axis', unit: 'mm' },
    { name: 'outside of the bend', unit: 'mm' },
    { name: 'inside of the bend', unit: 'mm' },
    { name: 'ends cut aslant', unit: '' },
  ],
  rows: Array.from({ length: pieces }, (_, i) => {
    const isMiddle = i > 0 && i < pieces - 1;
    const { asked, ends } = isMiddle ? middle : i === 0 ? first : last;
    const back = ends.length * cutBackMm;
    return [i + 1, asked.lengthMm, asked.lengthMm + back, asked.lengthMm - back, ends.length];
  }),
});

const weldTable = (v: Values, { cutDeg, jointsDeg }: CutMitre): ReportTable => ({
  title: 'Joints to weld, all round',
  columns: [
    { name: 'joint', unit: '' },
    { name: 'round the bend', unit: 'deg' },
    { name: 'length of weld', unit: 'mm' },
    { name: 'angle finder reads', unit: 'deg' },
  ],
  rows: jointsDeg.map((deg, i) => [i + 1, deg, mitreRoundMm(v.diameter, cutDeg), 180 - 2 * cutDeg]),
});

const depthTable = ({ ends, diameterMm }: CopedTube): ReportTable => ({
  title: 'Every slanting end: depths at twelve places, from a ring at its longest point',
  columns: [
    { name: 'round from the inside of the bend', unit: 'deg' },
    { name: 'along the outside', unit: 'mm' },
    { name: 'depth', unit: 'mm' },
  ],
  rows: ends
    .slice(0, 1)
    .flatMap(({ cope }) =>
      depthsOf(cope).map(({ roundDeg, depthMm }) => [
        roundDeg,
        (Math.PI * diameterMm * roundDeg) / 360,
        depthMm,
      ]),
    ),
});
