import type { CalibrateResult, Estimate } from '../../contract/calibration.ts';
import { findingLine } from '../../model/finding-line.ts';
import { figure } from '../../text/figures.ts';

/** Results of a calibration, as a person reads them. */
export const calibrateText = ({ bends, saved }: CalibrateResult): string =>
  [
    ...bends.map(lotText),
    ...(saved === null ? [] : [`Written to ${saved}: --rule measured goes by it.`]),
  ].join('\n');

const lotText = (lot: CalibrateResult['bends'][number]): string => {
  const { fit, hem, stopFor90Deg: stopAt } = lot;
  const head = `${lot.material}, ${figure(lot.thicknessMm)} mm, ${lot.machine}, tool ${lot.tool}${hem === undefined ? '' : `, ${hem} hems`}: ${lot.strips} ${lot.strips === 1 ? 'strip' : 'strips'}`;
  const told = lot.findings.map((f) => `  ${findingLine(f)}`);
  if (fit === undefined) return [head, ...told].join('\n');
  return [
    head,
    hem === undefined
      ? `  K ${shown(fit.kFactor, 3)}, inside radius ${shown(fit.insideRadiusMm, 2)} mm, from bends of ${fit.anglesDeg.map((a) => figure(a, 1)).join(' to ')} degrees; one goes with the other`
      : `  K ${shown(fit.kFactor, 3)} with inside radius ${figure(fit.insideRadiusMm.value)} mm`,
    `  deduction measured: ${fit.deductions.map((d) => `${figure(d.deductionMm)} mm at ${figure(d.angleDeg, 1)} degrees (${d.strips} ${d.strips === 1 ? 'strip' : 'strips'})`).join(', ')}`,
    ...(fit.squareMm === undefined
      ? []
      : [`  a bend of 90 degrees takes ${shown(fit.squareMm, 2)} mm off the sum of its legs`]),
    ...(stopAt === null ? [] : [`  stop at ${figure(stopAt, 1)} for 90 degrees`]),
    ...told,
    `  About ${fit.toHalve} more strips would halve the doubt.`,
  ].join('\n');
};

const shown = ({ value, within95 }: Estimate, decimals: number): string =>
  `${figure(value, decimals)} ±${figure(within95, decimals)} (95 times in 100)`;

/** How strips are made and measured, for users who have none yet. */
export const CALIBRATE_HOW_TO = `Measuring your own bends

1. Cut strips of the sheet, all from one piece, across the grain. Three of each angle are a start; different
   angles tell K from the radius:
     blankwright make test-strip --material dc01 --thickness 1.5 --bend-angle 90 --quantity 3 --name strip-90
     blankwright make test-strip --material dc01 --thickness 1.5 --bend-angle 45 --quantity 2 --name strip-45
     blankwright make test-strip --material dc01 --thickness 1.5 --bend-angle 120 --quantity 3 --name strip-120
2. Number them, and measure each with a calliper before folding: its thickness and its length.
3. Fold them with the tool you want to know, and write down where you stopped the leaf.
4. Measure after folding: the angle the metal was turned, and both legs on the outside, from the free edge to where
   the outside faces meet (lay two rulers on them); over 90 degrees to the outermost point of the bend. A radius
   gauge in the bend helps.
5. Write them down, as strips.yaml:
     material: dc01
     thickness: 1.48
     machine: folder
     tool: nose R1.5
     noseRadius: 1.5
     strips:
       - { flat: 150, legA: 76.4, legB: 76.2, angle: 90, stopAt: 91.5, radius: 1.5 }
       - { flat: 150, legA: 75.3, legB: 75.1, angle: 45.5, stopAt: 46 }
   or as strips.csv with the heading material,thickness,machine,tool,noseRadius,flat,legA,legB,angle,hem,gap,stopAt,radius
   Strips folded right over say hem: closed, open (with gap: what it leaves inside) or teardrop (with the radius of its
   loop) in place of the angle; both legs go to the outermost point of the hem, leg B is the one folded over:
       - { flat: 100, legA: 80.2, legB: 20.1, hem: closed }
6. blankwright calibrate strips.yaml --save shop.yaml`;
