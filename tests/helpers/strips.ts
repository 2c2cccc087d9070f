import { bendFigures } from '../../src/bending/bend.ts';

/** Strips of a shop whose bends have K 0.4 and radius 2.5 on 3 mm, measured without error. */
export const strips = (): string => {
  const rows = [90, 90, 45, 120, 120].map((angle) => {
    const { deductionMm } = bendFigures(
      { id: 'k', k: 0.4 },
      { thicknessMm: 3, insideRadiusMm: 2.5, angleDeg: angle },
      'outside',
    );
    return `s275,3,folder,nose 2.5,150,70,${(80 + deductionMm).toFixed(6)},${angle},${(angle / 0.98).toFixed(6)},`;
  });
  return ['material,thickness,machine,tool,flat,legA,legB,angle,stopAt,radius', ...rows].join('\n');
};
