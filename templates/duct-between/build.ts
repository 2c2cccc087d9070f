import { assemble, hasStop } from '../../src/template.ts';
import type { Built, Finding, Panel, Part, Piece } from '../../src/template.ts';
import { cutSeams, isJoined, type LaidFacet, layFacets } from '../duct-transition/develop.ts';
import { facetStanding } from '../duct-transition/standing.ts';
import { chainFolds } from '../duct-transition/chain-folds.ts';
import type { Facet } from '../duct-transition/surface.ts';
import { sectionsOf } from './air.ts';
import { bandOf } from './band.ts';
import { allMm, chainsOf, COUNTED, type Split } from './chains.ts';
import { crossingEnds } from './apart.ts';
import { type DuctEnds, endsOf, surveyOf } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import {
  type Blank,
  closesRound,
  fitsSheet,
  impossibleWalls,
  noSeamLeft,
  overSheet,
} from './limits.ts';
import { isLapped, lapNotes, lappedChains } from './laps.ts';
import { ductReport, said } from './report.ts';
import { runsOverItself } from './overlap.ts';
import { lipPieces } from './lips.ts';
import { rimsOf } from './rims.ts';
import { impossibleStubs, stubNotes, stubPieces } from './stub.ts';
import { ductWishes } from './wishes.ts';

/** The blanks of a duct between two openings, or what is wrong with the figures. */
export const ductBetween = (v: DuctBetween): Built => {
  const survey = surveyOf(v);
  const ends = endsOf(v);
  if ('findings' in ends) return { findings: [...survey, ...ends.findings] };
  const rims = rimsOf(v, ends.value);
  const apart = crossingEnds(v, ends.value, rims.near.points, rims.far.points);
  if (apart.length > 0) return { findings: [...survey, ...apart] };
  const ring = bandOf(rims.near, rims.far);
  const impossible = [...impossibleWalls(v, ring), ...impossibleStubs(v, ends.value)];
  if (hasStop(impossible)) return { findings: [...survey, ...impossible] };
  const { blanks, findings: seams } = chosenBlanks(v, ends.value, ring);
  const lips = lipPieces(v, ends.value, ring);
  const findings = [...seams, ...lips.findings];
  if (hasStop(findings)) return { findings: [...survey, ...findings] };
  const pieces = blanks.map((blank, i): Piece => ({
    id: blanks.length === 1 ? 'duct' : v.blanks === 'apart' && i === 0 ? 'apart' : `part-${i + 1}`,
    part: blankPart(v, blank),
    standing: facetStanding(blank.laid[blank.root] as LaidFacet, v.thicknessMm),
  }));
  const along = sectionsOf(ends.value, rims, ring, v.thicknessMm);
  const duct = { ends: ends.value, rims, ring, along };
  const rest = {
    findings: [
      ...survey,
      ...impossible,
      ...findings,
      ...said(v, duct),
      ...lapNotes(
        v,
        blanks.map(({ chain }) => chain),
      ),
      ...stubNotes(v, ends.value),
    ],
    report: ductReport(
      v,
      duct,
      blanks.map(({ chain }) => chain),
    ),
  };
  const all = [...pieces, ...lips.pieces, ...stubPieces(v, ends.value, rims, ring)];
  const [only] = all;
  return all.length === 1 && only !== undefined
    ? { part: only.part, ...rest }
    : { pieces: all, ...rest };
};

/** The blanks of one way to cut the ring open, and what is wrong with their laps. */
interface Blanks {
  readonly blanks: readonly Blank[];
  readonly findings: readonly Finding[];
}

const blanksOf = (v: DuctBetween, ends: DuctEnds, ring: readonly Facet[], split: Split): Blanks => {
  const plain = chainsOf(ring, split, v);
  const { chains, findings } = isLapped(v)
    ? lappedChains(v, ends, plain)
    : { chains: plain, findings: [] };
  const gapMm = isLapped(v) ? 0 : v.cornerGapMm;
  const blanks = chains.map((chain) => {
    const root = rootOf(chain);
    const laid = layFacets(chain, root);
    return { chain, root, laid, kept: cutSeams(laid, gapMm / 2) };
  });
  return { blanks, findings };
};

/** The largest wall on the near opening: its edge there lies level at the bottom of the drawing. */
const rootOf = (chain: readonly Facet[]): number => {
  const lengths = chain.map((facet) => allMm(facet, 'base'));
  const most = Math.max(...lengths) * (1 - AS_LONG);
  const middle = (chain.length - 1) / 2;
  return lengths
    .flatMap((mm, i) => (mm >= most ? [i] : []))
    .reduce((best, i) => (Math.abs(i - middle) < Math.abs(best - middle) ? i : best));
};

/** Edges that differ by this share are as long as each other: rounding may not choose between them. */
const AS_LONG = 1e-6;

/** As few blanks as fit the sheet and lie flat without running over themselves, or as asked. */
const chosenBlanks = (v: DuctBetween, ends: DuctEnds, ring: readonly Facet[]): Blanks => {
  const ways: readonly Split[] = v.blanks === 'auto' ? COUNTED : [v.blanks];
  let { blanks, findings }: Blanks = { blanks: [], findings: [] };
  for (const split of ways) {
    ({ blanks, findings } = blanksOf(v, ends, ring, split));
    const isWhole = blanks.every((blank) => fitsSheet(v, blank) && !runsOverItself(blank.kept));
    if (isWhole && findings.length === 0) break;
  }
  const lost = blanks.filter(({ kept }) => !isJoined(kept));
  return {
    blanks,
    findings: [
      ...findings,
      ...(lost.length > 0 ? [noSeamLeft(v, lost)] : []),
      ...overSheet(v, blanks),
      ...closesRound(blanks),
    ],
  };
};

const blankPart = (v: DuctBetween, { chain, root, kept }: Blank): Part => {
  const panels = kept.map(({ facet, outline }): Panel => ({
    id: facet.id,
    outline: outline.map(({ x, y, edge: called }) => ({ x, y, bulge: 0, edge: called })),
    cutouts: [],
  }));
  return assemble(v, {
    root: (chain[root] as Facet).id,
    panels,
    folds: chainFolds(v, chain, root),
    wishes: ductWishes(chain),
  });
};
