import { wallBump } from '../../bending/bump.ts';
import type { RollingPlan } from '../../contract/fold-plan.ts';
import type { Part } from '../../model/part.ts';
import { figure } from '../../text/figures.ts';

/** How the wall of a part is rolled or bumped; nothing where none is. */
export const rollingOf = ({ rolled, thicknessMm }: Part): RollingPlan | undefined => {
  if (rolled === undefined) return undefined;
  const { insideRadiusMm, angleDeg, aroundMm } = rolled.sizes;
  // The widest end decides: its facets stand off the most.
  const {
    hits,
    angleDeg: degPerHit,
    standOffMm,
  } = wallBump({
    insideRadiusMm: insideRadiusMm[1],
    thicknessMm,
    angleDeg,
  });
  const each = aroundMm.map((mm) => mm / hits) as [number, number];
  return {
    panel: rolled.panel,
    insideFace: rolled.direction === 'up' ? 'upper' : 'lower',
    insideRadiusMm,
    angleDeg,
    hits,
    degPerHit,
    pitchMm: each,
    firstMm: [each[0] / 2, each[1] / 2],
    standOffMm,
  };
};

/** The same in sentences, lengths in mm, each one written so that its figures may be turned to inches. */
export const rollingWords = (plan: RollingPlan): string[] => {
  const pair = ([least, most]: readonly [number, number], decimals: number): string =>
    Math.abs(most - least) < ONE_FIGURE_MM
      ? `${figure(most, decimals)} mm`
      : `${figure(least, decimals)} mm at the tight end and ${figure(most, decimals)} mm at the wide one`;
  const seen = plan.insideFace === 'upper' ? 'the face that the drawing shows' : 'the other face';
  return [
    `rolled, no fold of a machine: through rolls, ${seen} inside, to an inside radius of ${pair(plan.insideRadiusMm, 1)} over ${figure(plan.angleDeg, 1)} deg, on a card of that radius`,
    `without rolls bump it in ${plan.hits} hits of ${figure(plan.degPerHit, 1)} deg, ${pair(plan.pitchMm, 1)} apart, the first ${pair(plan.firstMm, 1)} from the start line; its corners then stand ${figure(plan.standOffMm, 2)} mm off the round`,
  ];
};

/** Radii and pitches nearer to each other than this are one, mm. */
const ONE_FIGURE_MM = 0.05;
