import type { HoleAxes, HoleAxis } from '../forms/hole-axes.ts';
import type { InputDescription } from '../forms/read.ts';

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
  // Coordinates are drawn in the usual way: the first to the right, the second upward.
  const [level, upright] = across.from === 'x' ? [across, along] : [along, across];
  const [levelMm, uprightMm] = across.from === 'x' ? [35, 20] : [20, 35];
  return [
    `  ${names.join(', ')} 35,20,M8`,
    `    ${lineOf(level)}`,
    `    |<- ${levelMm} ->o`,
    '    |        ^',
    `    |        ${uprightMm}`,
    '    |        v',
    `    +----------- ${lineOf(upright)}`,
  ].join('\n');
};

/** Name of the line from which an axis counts. */
const lineOf = ({ from, isDirection }: HoleAxis): string =>
  isDirection === true ? `${from} = 0` : from;
