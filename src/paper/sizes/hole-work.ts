import { printedIn } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import type { HoleUse } from '../../model/hole-use.ts';

/** What is to be done to a hole beside cutting it: `M8 tapped`, `csk 13.4 from below`. */
export const workText = (use: HoleUse | undefined, { tape } = printedIn()): string => {
  if (use === undefined) return '';
  const { thread, screw = '', countersink, isDrilled, tube } = use;
  return [
    ...(isDrilled === true ? ['drill'] : []),
    ...(thread?.kind === 'tapped' ? [`${screw}x${figure(thread.pitchMm)} tapped`] : []),
    ...(thread?.kind === 'rivet nut' ? [`rivet nut ${screw}`] : []),
    ...(countersink !== undefined
      ? [
          `csk ${tape(countersink.diameterMm, 1)} from ${countersink.face === 'up' ? 'above' : 'below'}`,
        ]
      : []),
    ...(tube !== undefined ? [`tube ${tape(tube.diameterMm, 1)}${leanText(tube.leanDeg)}`] : []),
    ...(tube?.grommetMm !== undefined ? [`grommet ${tape(tube.grommetMm, 1)}`] : []),
  ].join(', ');
};

/** How a tube stands in its hole, measured from square to the sheet. */
const leanText = (leanDeg: number): string =>
  leanDeg === 0 ? '' : ` at ${figure(leanDeg, 1)} deg from square`;
