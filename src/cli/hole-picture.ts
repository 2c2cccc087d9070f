import type { HoleAxes, HoleAxis } from '../forms/hole-axes.ts';
import type { InputDescription } from '../forms/read.ts';

/**
 * What the two figures of a short hole are measured from, drawn once for each pair that a family
 * has: the order is not the same for a bracket and for a traced plate, and a figure in the other's
 * place is a hole in the wrong place.
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

/** The line that an axis counts from, by its name. */
const lineOf = ({ from, isDirection }: HoleAxis): string =>
  isDirection === true ? `${from} = 0` : from;
