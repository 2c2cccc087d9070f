import { printedIn } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import type { HoleUse } from '../../model/hole-use.ts';

/** What is to be done to a hole beside cutting it: `M8 tapped`, `csk 13.4 from below`. */
export const workText = (use: HoleUse | undefined, { tape } = printedIn()): string => {
  if (use === undefined) return '';
  const { thread, screw = '', countersink, isDrilled } = use;
  return [
    ...(isDrilled === true ? ['drill'] : []),
    ...(thread?.kind === 'tapped' ? [`${screw}x${figure(thread.pitchMm)} tapped`] : []),
    ...(thread?.kind === 'rivet nut' ? [`rivet nut ${screw}`] : []),
    ...(countersink !== undefined
      ? [
          `csk ${tape(countersink.diameterMm, 1)} from ${countersink.face === 'up' ? 'above' : 'below'}`,
        ]
      : []),
  ].join(', ');
};
