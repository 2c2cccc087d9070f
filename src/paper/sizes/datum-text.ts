import { figure } from '../../text/figures.ts';
import type { Datum } from './datum.ts';

/** What the sizes of a paper are measured from, for its key: a sentence or two. */
export const datumText = ({ x, y, turnDeg }: Datum): string => {
  const from =
    x.name === y.name
      ? `All sizes are measured from ${x.name}`
      : `x is measured from ${x.name}, y from ${y.name}`;
  const edges = [x, y].filter((line) => line.kind === 'edge').length;
  const marks = ['', ', the black triangle', ', the black triangles'][edges] as string;
  const turned =
    turnDeg === 0
      ? ''
      : ` Drawn turned by ${figure(Math.abs(turnDeg), 1)}° ${turnDeg > 0 ? 'clockwise' : 'counter-clockwise'} against the cut file.`;
  return `${from}${marks}.${turned}`;
};
