import type { HoleAxes, HoleAxis } from '../forms/hole-axes.ts';
import type { InputDescription } from '../forms/read.ts';
import { CELL_MM, datumPicture } from '../paper/draw/datum-picture.ts';
import { pictureText } from '../paper/write/picture-text.ts';
import { wrapWords } from './terminal.ts';

/**
 * Drawings of what the two figures of a short hole are measured from, one for each pair that a
 * family has. The order differs between a bracket and a traced plate, and with the figures
 * exchanged the hole would be in the wrong place.
 */
export const holePictures = (inputs: readonly InputDescription[]): string[] => {
  const pairs = new Map<string, { readonly axes: HoleAxes; readonly names: string[] }>();
  for (const { flag, axes = [] } of inputs) {
    for (const pair of axes) {
      const key = pair.map(({ from }) => from).join('|');
      const known = pairs.get(key) ?? { axes: pair, names: [] };
      known.names.push(`--${flag}`);
      pairs.set(key, known);
    }
  }
  return [...pairs.values()].map(({ axes, names }) => picture(axes, names));
};

const picture = ([across, along]: HoleAxes, names: readonly string[]): string => {
  // Coordinates are drawn as everywhere: the first to the right, the second upward.
  const [first, second] = [
    { name: lineOf(across), distance: '35' },
    { name: lineOf(along), distance: '20' },
  ];
  const drawn = across.from === 'x' ? datumPicture(first, second) : datumPicture(second, first);
  const lines = pictureText(drawn, CELL_MM).map((text) => `    ${text}`);
  return [wrapWords(`${names.join(', ')} 35,20,M8`, '  '), ...lines].join('\n');
};

/** Name of the line from which an axis counts. */
const lineOf = ({ from, isDirection }: HoleAxis): string =>
  isDirection === true ? `${from} = 0` : from;
