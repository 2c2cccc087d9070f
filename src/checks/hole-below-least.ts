import { lacks } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import { acrossLoop } from '../geometry/across.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { type Finding, warn } from '../model/finding.ts';
import {
  type Check,
  type Checked,
  cutterName,
  type Cutting,
  type Hole,
  impossible,
  nameOf,
  onHole,
} from './check.ts';

/** A hole or slot smaller than the cutter cuts cleanly. */
export const holeBelowLeast: Check = {
  rule: 'hole-below-least',
  title: 'A hole or a slot is smaller than the cutter cuts cleanly.',
  severities: ['stop', 'warn'],
  reason:
    'Piercing blows out more than a small hole is wide, and its edge hardens: it comes out tapered, out of round, or not at all.',
  source:
    'least hole and least slot of the cutter in the shop file; those of the built-in shop are common practice',
  measured: 'diameter or width against the least of the cutter in this sheet',
  mend: 'Make it larger, or have it drilled.',
  run: (checked) => {
    const { cutting, holes } = checked;
    return cutting === undefined
      ? []
      : holes
          .filter((hole) => hole.use?.isDrilled !== true)
          .flatMap((hole) => examine(checked, cutting, hole));
  },
};

function examine({ flat, shop }: Checked, cutting: Cutting, hole: Hole): Finding[] {
  const { cutter, kerfMm, limitMm } = cutting;
  const isRound = hole.diameterMm !== undefined;
  const size =
    hole.diameterMm ?? Math.min(...acrossLoop(hole.curve, 'left').map((across) => across.widthMm));
  const least = limitMm(isRound ? cutter.leastHole : cutter.leastSlot);
  if (size >= least - NOISE_MM) return [];
  const what = `${nameOf(hole)}: ${isRound ? 'diameter' : 'width'} ${figure(size)}`;
  const asked = `under the least of ${figure(least)} mm of ${cutterName(cutter)} in sheet of ${figure(flat.thicknessMm)} mm`;
  const mend = `Make it ${atLeast(least)} or more, or ${isRound ? 'write drill behind its size, which marks its centre and leaves it to the drill' : 'drill its ends and saw it'}.`;
  const finding =
    size < kerfMm
      ? impossible(
          shop,
          holeBelowLeast,
          `${what} is narrower than the cut itself (${figure(kerfMm)} mm) and ${asked}. ${mend}`,
        )
      : warn(holeBelowLeast, `${what} is ${asked}. ${mend}`);
  return [{ ...finding, ...onHole(hole), ...lacks(size, least) }];
}
