/** A direction in which holes of a panel are measured. */
export interface HoleAxis {
  /** Word for the place from which it is measured: `fold`, `left`. */
  readonly from: string;
  /** That place, worded to complete 'from': `the left end of the fold`. */
  readonly at: string;
  /** Word for the opposite place, where holes may be measured from there too: `edge`, `right`. */
  readonly to?: string;
  /** Whether the word names a direction, not a place: `up 35` and not `from up 35`. */
  readonly isDirection?: true;
}

/** The two axes, in the order in which the short form gives them. */
export type HoleAxes = readonly [across: HoleAxis, along: HoleAxis];

/**
 * The place from which one figure is measured: the axis's own, the opposite one, or half way
 * between.
 */
export type HoleDatum = 'near' | 'far' | 'middle';

/** Away from the fold that a panel stands on. */
export const FROM_FOLD: HoleAxis = {
  from: 'fold',
  at: 'the outside corner of its fold',
  to: 'edge',
};
/** Axis along that fold. */
export const FROM_LEFT: HoleAxis = { from: 'left', at: 'the left end of the fold', to: 'right' };

/** Across a panel between two others, from the outside corner at the one to that at the other. */
export const between = (near: string, far: string): HoleAxis => ({
  from: near,
  at: `the outside corner at ${near}`,
  to: far,
});

/** Axes of a panel that stands on a fold. */
export const FOLD_AXES: HoleAxes = [FROM_FOLD, FROM_LEFT];

/** Axes of a drawing in coordinates, which everybody takes in this order. */
export const XY_AXES: HoleAxes = [
  { from: 'x', at: 'x', isDirection: true },
  { from: 'y', at: 'y', isDirection: true },
];

/** Words for an axis, such as `from fold` or `up`. */
export const from = ({ from: word, isDirection }: HoleAxis): string =>
  isDirection === true ? word : `from ${word}`;

/** An example such as `from fold 35, from left 20`. */
export const axesExample = ([across, along]: HoleAxes): string =>
  `${from(across)} 35, ${from(along)} 20`;

/** The order of two axes, such as `fold, left`. */
export const axesOrder = ([across, along]: HoleAxes): string => `${across.from}, ${along.from}`;

/**
 * What may be given for holes measured along one of these pairs of axes, the order of the short
 * form included.
 */
export const holesAllowed = (choices: readonly HoleAxes[]): string =>
  `holes as '${choices.map((axes) => `${axesExample(axes)}, M8'${farWords(axes)}`).join(" or '")}, or short as 35,20,M8 in the order ${choices.map(axesOrder).join(' or ')}, size`;

const farWords = (axes: HoleAxes): string => {
  const far = axes.flatMap(({ to }) => (to === undefined ? [] : [`from ${to}`]));
  return far.length === 0 ? '' : ` (or ${[...far, 'middle'].join(', ')})`;
};

/**
 * A text such as `Holes in leg A: from the outside corner of its fold, from the left end of the
 * fold, size.`
 */
export const aboutHoles = (what: string, choices: readonly HoleAxes[]): string => {
  const text = `${what}: ${choices.map(([across, along]) => `${place(across)}, ${place(along)}`).join('; or ')}, size.`;
  return text.includes('outside') ? `${text} With measure inside, from the inside there.` : text;
};

const place = ({ at, isDirection }: HoleAxis): string => (isDirection === true ? at : `from ${at}`);

/** A figure under the name of what it is measured from, or the word middle. */
export interface NamedPlace {
  /** Number of the axis; absent for the middle, which is on both. */
  readonly axis: 0 | 1 | undefined;
  readonly datum: HoleDatum;
  readonly name: string;
  readonly text: string;
}

/** Takes `from fold 35`, `fold 35` or `middle` apart; `undefined` for a bare figure. */
export function namedPlace(word: string, axes: HoleAxes): NamedPlace | undefined {
  if (/^(?:from\s+(?:the\s+)?)?middle$/i.test(word) && axes.some(({ to }) => to !== undefined))
    return { axis: undefined, datum: 'middle', name: 'middle', text: '' };
  const rest = word.replace(/^from\s+(?:the\s+)?/i, '');
  const known = ([0, 1] as const).flatMap((axis) => [
    { name: axes[axis].from, datum: 'near' as const, axis },
    ...(axes[axis].to === undefined ? [] : [{ name: axes[axis].to, datum: 'far' as const, axis }]),
  ]);
  const found = known
    .toSorted((a, b) => b.name.length - a.name.length)
    .find(({ name }) => rest.toLowerCase().startsWith(`${name.toLowerCase()} `));
  return found === undefined ? undefined : { ...found, text: rest.slice(found.name.length).trim() };
}
