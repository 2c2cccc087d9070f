import { assemble, edge, NOISE_MM, rectangle, wish } from '../../src/template.ts';
import type { Built, Panel, Part, Piece } from '../../src/template.ts';
import { cutSeams, isJoined, type LaidFacet, layFacets } from './develop.ts';
import { chainFolds } from './chain-folds.ts';
import { said, transitionReport } from './report.ts';
import { collarStanding, facetStanding } from './standing.ts';
import { impossible, noSeamLeft } from './limits.ts';
import { type Facet, facetChains, type Transition } from './surface.ts';
import { transitionWishes } from './wishes.ts';
import type { DuctTransition } from './inputs.ts';

/**
 * The transition on the middle of its sheet. Where a duct of the same sheet is welded on, the
 * middles meet: there an end that is measured outside is a thickness smaller, and one measured
 * inside a thickness larger.
 */
export const transitionOf = (v: DuctTransition): Transition => {
  const more = v.measure === 'outside' ? -v.thicknessMm : v.thicknessMm;
  return {
    widthMm: v.width + more,
    depthMm: v.depth + more,
    diameterMm: v.diameter + more,
    lengthMm: v.length,
    centre: [v.offsetRight, v.offsetBack],
    divisions: v.divisions,
    rim: v.roundEdge,
  };
};

/** The blanks of a transition with its report, or what is wrong with the figures. */
export const transitionParts = (v: DuctTransition): Built => {
  const findings = impossible(v);
  if (findings.length > 0) return { findings };
  const surface = transitionOf(v);
  const chains = facetChains(surface, { blanks: v.blanks, at: v.seam, side: v.seamSide }).map(
    (chain) => ({ chain, laid: layFacets(chain, rootOf(chain)) }),
  );
  const cut = chains.map(({ chain, laid }) => ({
    chain,
    laid,
    kept: cutSeams(laid, v.cornerGapMm / 2),
  }));
  const lost = cut.filter(({ kept }) => !isJoined(kept));
  if (lost.length > 0)
    return {
      findings: [
        noSeamLeft(
          v,
          lost.map(({ laid }) => laid),
        ),
      ],
    };
  const parts = cut.map(({ chain, kept }) => blankPart(v, chain, kept));
  const report = transitionReport(
    v,
    surface,
    chains.map(({ chain }) => chain),
  );
  const rest = { findings: said(v, surface), report };
  const [only] = parts;
  if (parts.length === 1 && v.collar === 0 && only !== undefined) return { part: only, ...rest };
  const ids = parts.length === 1 ? ['transition'] : ['half-1', 'half-2'];
  const pieces = parts.map((part, i): Piece => {
    const { chain, laid } = chains[i] as (typeof chains)[number];
    const standing = facetStanding(laid[rootOf(chain)] as LaidFacet, v.thicknessMm);
    return { id: ids[i] as string, part, standing };
  });
  const collar = (): Piece => ({
    id: 'collar',
    part: collarPart(v, surface),
    standing: collarStanding(
      v,
      surface,
      chains.flatMap(({ chain }) => chain),
    ),
  });
  return {
    pieces: [...pieces, ...(v.collar > 0 ? [collar()] : [])],
    ...rest,
  };
};

/**
 * The whole flat triangle nearest the middle of a chain: it lies level at the bottom of the
 * drawing.
 */
const rootOf = (chain: readonly Facet[]): number => {
  const middle = (chain.length - 1) / 2;
  const flats = chain.flatMap((facet, i) =>
    facet.edges.includes('base') && !facet.id.includes(' ') ? [i] : [],
  );
  return flats.reduce((best, i) =>
    Math.abs(i - middle) < Math.abs(best - middle) - NOISE_MM ? i : best,
  );
};

const blankPart = (
  v: DuctTransition,
  chain: readonly Facet[],
  laid: readonly LaidFacet[],
): Part => {
  const panels = laid.map(({ facet, outline }): Panel => ({
    id: facet.id,
    outline: outline.map(({ x, y, edge: called }) => ({ x, y, bulge: 0, edge: called })),
    cutouts: [],
  }));
  return assemble(v, {
    root: (chain[rootOf(chain)] as Facet).id,
    panels,
    folds: chainFolds(v, chain, rootOf(chain)),
    wishes: transitionWishes(transitionOf(v), panels),
  });
};

/**
 * The strip that is rolled into the stub: its length is its mean circumference less the gap of its
 * seam.
 */
const collarPart = (v: DuctTransition, { diameterMm }: Transition): Part =>
  assemble(v, {
    root: 'collar',
    panels: [
      {
        id: 'collar',
        outline: rectangle(0, 0, Math.PI * diameterMm - v.cornerGapMm, v.collar),
        cutouts: [],
      },
    ],
    wishes: [
      wish('collar', v.collar, edge('collar', 'down'), edge('collar', 'up')),
      wish(
        'circumference - cornerGap',
        Math.PI * diameterMm - v.cornerGapMm,
        edge('collar', 'left'),
        edge('collar', 'right'),
      ),
    ],
    folds: [],
  });
