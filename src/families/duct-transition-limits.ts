import { atLeast, atMost, figure } from '../figures.ts';
import { type Finding, stop } from '../model/finding.ts';
import type { DuctTransition } from './duct-transition.ts';
import { type LaidFacet, widestSeamGapMm } from './duct-transition-develop.ts';

/** Clear width of an end, mm, under which nothing is left to form the sheet round. */
const LEAST_CLEAR_MM = 1;

/** What keeps these figures from being a transition. */
export const impossible = (v: DuctTransition): Finding[] => {
  const findings: Finding[] = [];
  if (v.divisions % 4 !== 0) {
    const less = Math.floor(v.divisions / 4) * 4;
    findings.push(stop('divisions-by-four', `divisions ${v.divisions} does not give each corner of the rectangle a quarter of the circle: give ${less} or ${less + 4}.`));
  }
  const least = v.measure === 'outside' ? 2 * v.thicknessMm + LEAST_CLEAR_MM : LEAST_CLEAR_MM;
  for (const name of ['width', 'depth', 'diameter'] as const) {
    if (v[name] >= least) continue;
    findings.push(stop('end-too-small', `${name} ${figure(v[name])} leaves the sheet no opening: give ${atLeast(least)} or more.`));
  }
  const mostRadius = (v.measure === 'outside' ? v.diameter : v.diameter + 2 * v.thicknessMm) / 2 - v.thicknessMm;
  if (findings.length === 0 && v.insideRadiusMm > mostRadius) {
    findings.push(stop('radius-over-round', `radius ${figure(v.insideRadiusMm)} is rounder than the inside of the round end: give ${atMost(mostRadius)} or less.`));
  }
  return findings;
};

/** The cut for the gap of a seam took a facet away, or cut one off from the next. */
export const noSeamLeft = (v: DuctTransition, blanks: readonly (readonly LaidFacet[])[]): Finding => {
  const widest = Math.min(...blanks.map((laid) => widestSeamGapMm(laid, v.cornerGapMm)));
  const elsewhere = v.seam === 'corner' ? ', or put the seam up the middle of a side' : '';
  return stop('seam-cuts-through', `cornerGap ${figure(v.cornerGapMm)} at the seam cuts facets of the transition off: make it at most ${atMost(widest)}${elsewhere}.`);
};
