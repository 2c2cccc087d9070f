import {
  distance,
  flatten,
  hasStop,
  pieceOf,
  ruleFindings,
  setbackMm,
  signedArea,
} from '../../src/template.ts';
import type { BendRule, Cutout, Fold, Part } from '../../src/template.ts';

/** Volume of the blank that is cut for a part, its holes taken out, mm3. */
export const blankMm3 = (part: Part, rule: BendRule): number => {
  // A rule without figures for a bend stops the part; the approximate volume is good enough until
  // then.
  if (hasStop(ruleFindings(rule, part))) return metalMm3(part);
  return flatten(part, rule).areaMm2 * part.thicknessMm;
};

/**
 * Volume of a folded part, mm3: its panels on their mould lines without their holes, less what
 * every bend saves when the middle of the sheet keeps its length. Reliefs and trimmed corners, a
 * few grams, are not taken off.
 */
export const metalMm3 = (part: Part): number => {
  const panels = part.panels.reduce(
    (sum, p) => sum + signedArea(p.outline) - p.cutouts.reduce((holes, c) => holes + holeMm2(c), 0),
    0,
  );
  return (panels - part.folds.reduce((sum, f) => sum + savedMm2(part, f), 0)) * part.thicknessMm;
};

const holeMm2 = (c: Cutout): number =>
  c.kind === 'round' ? (Math.PI / 4) * c.diameterMm ** 2 : signedArea(c.loop);

const savedMm2 = (part: Part, { parent, angleDeg, insideRadiusMm: r }: Fold): number => {
  const outline = part.panels.find((p) => p.id === parent.panel)?.outline ?? [];
  const { from, to } = pieceOf(outline, parent.edge);
  const lengthMm = (parent.to ?? distance(from, to)) - (parent.from ?? 0);
  const middle = ((r + part.thicknessMm / 2) * angleDeg * Math.PI) / 180;
  return lengthMm * (2 * setbackMm(angleDeg, r, part.thicknessMm, part.measure) - middle);
};
