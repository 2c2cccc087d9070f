import { hasStop } from '../../src/template.ts';
import type { Built, Finding, Part, Piece, Pose, Vec3, Wish } from '../../src/template.ts';
import { strapPart } from '../strap/build.ts';
import { hatOf } from '../strap/sizes.ts';
import { impossibleCradle } from './limits.ts';
import { cradleNotes } from './notes.ts';
import { railPart } from './rail.ts';
import { cradleReport } from './report.ts';
import {
  areAlike,
  besideMm,
  railBoltMm,
  railEnds,
  railFlange,
  strapAt,
  strapNames,
  strapPlaces,
} from './sizes.ts';
import type { Cradle } from './inputs.ts';

/** Two straps, or one twice, and the rail that one end of both is bolted to. */
export function cradle(v: Cradle): Built {
  const impossible = impossibleCradle(v);
  if (impossible.length > 0) return { findings: impossible };
  const straps = strapPieces(v);
  const rail = railPart(v);
  const findings = [...straps.findings, ...(rail.findings ?? [])];
  if (hasStop(findings) || rail.part === undefined) return { findings };
  return {
    pieces: [...straps.pieces, railPiece(v, rail.part)],
    findings: [...findings, ...cradleNotes(v)],
    report: cradleReport(v),
  };
}

/** The straps, and what is wrong with the first of them, which is wrong with both. */
const strapPieces = (v: Cradle): { pieces: Piece[]; findings: readonly Finding[] } => {
  const places = strapPlaces(v);
  const made = (areAlike(v) ? places.slice(0, 1) : places).map((at) => strapPart(strapAt(v, at)));
  const pieces = made.flatMap(({ part }, i): Piece[] => {
    if (part === undefined) return [];
    const at = areAlike(v) ? places : [places[i] as number];
    return [
      {
        id: strapNames(v)[i] as string,
        part: ofCradle(part),
        ...(areAlike(v) && { quantity: 2 }),
        standing: { poses: at.map((along) => strapPose(v, along)), turn: 2, weldedTo: [] },
      },
    ];
  });
  return { pieces, findings: made[0]?.findings ?? [] };
};

/** The part in the words of the cradle: its wishes, and what its feet are bolted to. */
const ofCradle = (part: Part): Part => ({
  ...part,
  panels: part.panels.map((panel) => ({
    ...panel,
    cutouts: panel.cutouts.map((hole) => ({
      ...hole,
      use: { ...hole.use, meets: panel.id === 'foot B' ? 'rail' : 'chassis' },
    })),
  })),
  wishes: (part.wishes ?? []).map((w): Wish => ({
    ...w,
    input: WORDS.reduce((text, [from, to]) => text.replace(from, to), w.input),
  })),
});

const WORDS: readonly (readonly [strap: RegExp, cradle: string])[] = [
  [/^across \+ 2 rubber$/, 'width + 2 rubber + 2 clearance'],
  [/^boltCentres - across - 2 rubber/, 'boltCentres - width - 2 rubber - 2 clearance'],
  [/^width$/, 'strapWidth'],
  [/^height\b/, 'depth + drop'],
  [/^stepB$/, 'thickness'],
  [/ - stepB$/, ' - thickness'],
];

/**
 * The straps hang: z up, x along the rail from the left end of the tank, y across from its side away
 * from the rail, the face of the chassis at z = 0. Their feet still stand off by pullUp.
 */
const strapPose = (v: Cradle, alongMm: number): Pose => {
  const { o, x, y, z } = hatOf(strapAt(v, alongMm)).crownPose;
  const turned = ([a, b, c]: Vec3): Vec3 => [-a, b, -c];
  const [a, b, c] = turned(o);
  const placed: Vec3 = [a + alongMm + v.strapWidth / 2, b - besideMm(v), c - v.pullUp];
  return { o: placed, x: turned(x), y: turned(y), z: turned(z) };
};

/** The rail lies under the chassis, its web away from the tank. */
const railPiece = (v: Cradle, part: Part): Piece => ({
  id: 'rail',
  part,
  standing: {
    poses: [
      {
        o: [railEnds(v)[0], railBoltMm(v) - railFlange(v).boltMm, -v.thicknessMm],
        x: [1, 0, 0],
        y: [0, 1, 0],
        z: [0, 0, 1],
      },
    ],
    turn: 1,
    weldedTo: [],
  },
});
