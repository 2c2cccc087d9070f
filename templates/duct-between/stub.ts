import {
  arcOf,
  assemble,
  edge,
  figure,
  just,
  note,
  pieceOf,
  rectangle,
  refuse,
  wish,
} from '../../src/template.ts';
import type { Finding, Part, Piece } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';
import type { DuctEnds, EndName } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import type { Rim } from './rims.ts';
import { stubStanding } from './standing.ts';
import { LIPS } from './strips.ts';

const STUBS = { near: 'nearStub', far: 'farStub' } as const;
const NAMES = ['near', 'far'] as const;

const asked = (v: DuctBetween): readonly EndName[] => NAMES.filter((name) => v[STUBS[name]] > 0);

/** Findings on stubs of openings that are not round, or that have a lip instead. */
export const impossibleStubs = (v: DuctBetween, ends: DuctEnds): Finding[] =>
  asked(v).flatMap((name) => {
    const [stub, lip] = [STUBS[name], LIPS[name]];
    if (!ends[name].isRound)
      return [
        refuse(
          'stub-not-round',
          [stub, name],
          `${stub} ${figure(v[stub])} is rolled round, and ${name} is not`,
          [just(stub, 0)],
          `give ${name} as round with its diameter`,
        ),
      ];
    return v[lip] > 0
      ? [
          refuse(
            'stub-behind-lip',
            [stub, lip],
            `${stub} ${figure(v[stub])} and ${lip} ${figure(v[lip])} both stand on the same end`,
            [just(stub, 0), just(lip, 0)],
          ),
        ]
      : [];
  });

/** The stubs, each a strip rolled to the round that it stands on. */
export const stubPieces = (
  v: DuctBetween,
  ends: DuctEnds,
  rims: Readonly<Record<EndName, Rim>>,
  ring: readonly Facet[],
): Piece[] =>
  asked(v).map((name) => ({
    id: `${name}-stub`,
    part: stubPart(v, name, middleDiameterMm(ends, name)),
    standing: stubStanding(v, rims[name], ring),
  }));

const middleDiameterMm = (ends: DuctEnds, name: EndName): number => {
  const { from, to, bulge } = pieceOf(ends[name].loop, 0);
  return 2 * arcOf(from, to, bulge).radius;
};

/** Its length is its mean circumference less the gap of its seam. */
const stubPart = (v: DuctBetween, name: EndName, diameterMm: number): Part => {
  const id = `${name} stub`;
  const [long, high] = [Math.PI * diameterMm - v.cornerGapMm, v[STUBS[name]]];
  return assemble(v, {
    root: id,
    panels: [{ id, outline: rectangle(0, 0, long, high), cutouts: [] }],
    folds: [],
    wishes: [
      wish(STUBS[name], high, edge(id, 'down'), edge(id, 'up')),
      wish(`circumference of ${name} less cornerGap`, long, edge(id, 'left'), edge(id, 'right')),
    ],
  });
};

/** How the stubs are made, and what is welded first. */
export const stubNotes = (v: DuctBetween, ends: DuctEnds): Finding[] =>
  asked(v).map((name) => {
    const middle = middleDiameterMm(ends, name);
    return note(
      'roll-stub',
      `Roll the ${name} stub to ${figure(middle - v.thicknessMm)} inside, ${figure(middle + v.thicknessMm)} outside, weld its own seam and true it on a mandrel first; then close the walls round it and weld it edge to edge, its seam away from theirs.`,
    );
  });
