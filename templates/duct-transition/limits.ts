import {
  figure,
  isOver,
  isUnder,
  just,
  orLess,
  orMore,
  orTry,
  refuse,
} from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import type { DuctTransition } from './inputs.ts';
import { type LaidFacet, widestSeamGapMm } from './develop.ts';

/** Least clear width of an end, mm; with less, nothing is left to form the sheet round. */
const LEAST_CLEAR_MM = 1;

/** Findings on figures that give no transition. */
export const impossible = (v: DuctTransition): Finding[] => {
  const findings: Finding[] = [];
  if (v.divisions % 4 !== 0) {
    const less = Math.floor(v.divisions / 4) * 4;
    findings.push(
      refuse(
        'divisions-by-four',
        ['divisions'],
        `divisions ${v.divisions} does not give each corner of the rectangle a quarter of the circle`,
        [just('divisions', less), just('divisions', less + 4)],
      ),
    );
  }
  const least = v.measure === 'outside' ? 2 * v.thicknessMm + LEAST_CLEAR_MM : LEAST_CLEAR_MM;
  for (const name of ['width', 'depth', 'diameter'] as const) {
    if (!isUnder(v[name], least)) continue;
    findings.push(
      refuse('end-too-small', [name], `${name} ${figure(v[name])} leaves the sheet no opening`, [
        orMore(name, least),
      ]),
    );
  }
  const mostRadius =
    (v.measure === 'outside' ? v.diameter : v.diameter + 2 * v.thicknessMm) / 2 - v.thicknessMm;
  if (findings.length === 0 && isOver(v.insideRadiusMm, mostRadius)) {
    findings.push(
      refuse(
        'radius-over-round',
        ['radius', 'diameter'],
        `radius ${figure(v.insideRadiusMm)} is rounder than the inside of the round end of diameter ${figure(v.diameter)}`,
        [orLess('radius', mostRadius)],
      ),
    );
  }
  return findings;
};

/** Finding on a seam whose gap removes a facet, or separates one from the next. */
export const noSeamLeft = (
  v: DuctTransition,
  blanks: readonly (readonly LaidFacet[])[],
): Finding => {
  const widest = Math.min(...blanks.map((laid) => widestSeamGapMm(laid, v.cornerGapMm)));
  const elsewhere = v.seam === 'corner' ? [just('seam', 'middle')] : [];
  return orTry(
    refuse(
      'seam-cuts-through',
      ['cornerGap', 'seam'],
      `cornerGap ${figure(v.cornerGapMm)} at seam ${v.seam} cuts facets of the transition off`,
      [...(widest > 0 ? [orLess('cornerGap', widest)] : []), ...elsewhere],
    ),
    'cornerGap',
  );
};
