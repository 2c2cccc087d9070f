import { figure } from '../text/figures.ts';
import { byKey } from '../text/grouped.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { printable } from '../dxf/read/printable.ts';
import { lengthOf } from '../geometry/piece-length.ts';
import { type Finding, stop, warn } from '../model/finding.ts';
import type { CutLines } from './lines.ts';
import { counted, listed } from './listed.ts';
import type { Places } from './places.ts';
import type { Chain, CutPiece } from './understand.ts';

/**
 * A narrower gap is within the narrowest kerf, mm (that of a laser, some 0.1 mm: common practice),
 * so the part comes out all the same.
 */
const WITHIN_KERF_MM = 0.05;

/**
 * Ends that do not meet: gaps that should not be there, lines that should close and do not, and
 * lines that were never meant to close.
 */
export const openFindings = (lines: CutLines, place: Places): Finding[] => [
  ...listed(
    lines.gaps.map(({ at, sizeMm, layer }): Finding => {
      const what = `A gap of ${figure(sizeMm, 3)} mm at ${place(at)} on layer '${printable(layer)}'`;
      if (sizeMm > WITHIN_KERF_MM)
        return { ...stop('gap', `${what}. Join the ends, or let --mend do it.`), at };
      return {
        ...warn(
          'gap',
          `${what}, narrower than any cut: most programs join it, some see an open contour. Join the ends, or let --mend do it.`,
        ),
        at,
      };
    }),
  ),
  ...listed(lines.open.map((chain) => openFinding(chain, place))),
  ...strayFindings(lines),
];

const openFinding = (chain: Chain, place: Places): Finding => {
  const [first, last] = [chain[0] as CutPiece, chain.at(-1) as CutPiece];
  const message = `A line of ${figure(lengthOf(chain), 3)} mm on layer '${printable(first.layer)}' from ${place(first.from)} to ${place(last.to)} closes no contour. Close it, delete it, or put it on a layer MARK if it is not to be cut.`;
  return { ...stop('open-contour', message), at: first.from };
};

/** Layers of lines that are no contours: folds, axes, dimensions. */
const strayFindings = ({ strays, named }: CutLines): Finding[] => {
  const straight = [
    ...byKey(strays, (chain) => layerKey((chain[0] as CutPiece).layer)).values(),
  ].map((chains): Finding => {
    const { layer, from } = (chains[0] as Chain)[0] as CutPiece;
    return {
      ...warn(
        'stray-layer',
        `Layer '${printable(layer)}' holds ${counted(chains.length, 'open line')} and no closed contour: folds, axes or leftovers, which a cutter would cut. Leave the layer out, or say what it is for.`,
      ),
      at: from,
    };
  });
  const called = [...byKey(named, (p) => layerKey(p.layer)).values()].map((pieces): Finding => {
    const { layer, from } = pieces[0] as CutPiece;
    return {
      ...warn(
        'stray-layer',
        `The name of layer '${printable(layer)}' says that it is not cut, and it is left out here: a cutter that takes all layers would cut it. Leave it out of the file, or rename it if it is cut.`,
      ),
      at: from,
    };
  });
  return listed([...straight, ...called]);
};
