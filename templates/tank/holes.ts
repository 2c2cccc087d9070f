import { add, cosDeg, placeHoles, reachOf, refuse, scale, sinDeg } from '../../src/template.ts';
import type { Cutout, Finding, HoleFrame, HoleSpec, Vec2 } from '../../src/template.ts';
import {
  FITTINGS,
  type FittingName,
  pastTangentMm,
  type TankPanel,
  type TankSizes,
} from './sizes.ts';
import type { Tank } from './inputs.ts';
import { riseMm, slopeDeg } from './volume.ts';

export const OTHER_HOLES = {
  top: 'holesTop',
  floor: 'holesFloor',
  deep: 'holesDeep',
  shallow: 'holesShallow',
  left: 'holesLeft',
  right: 'holesRight',
} as const satisfies Record<TankPanel, keyof Tank>;

/** The inputs that put holes into a panel: its fittings, and its other holes. */
const inputsOn = (
  v: Tank,
  panel: TankPanel,
): readonly (FittingName | (typeof OTHER_HOLES)[TankPanel])[] => [
  ...FITTINGS.filter((name) => v[`${name}On`] === panel),
  OTHER_HOLES[panel],
];

/** All holes of a panel as cut-outs. */
export const panelHoles = (v: Tank, s: TankSizes, panel: TankPanel): Cutout[] => {
  const { origin, across, along } = insideFrame(v, s, panel);
  const shift = insideShift(v, s, panel);
  const frame = {
    origin: add(origin, add(scale(across, -shift.across), scale(along, -shift.along))),
    across,
    along,
    thicknessMm: v.thicknessMm,
  };
  return inputsOn(v, panel).flatMap((input) => placeHoles(input, v[input], frame));
};

/**
 * Axes of a panel on the inside faces. Top and floor: away from the deep end, then from the left.
 * Both ends: up from the floor, then from the left. The plates at the sides: up from the floor at
 * the deep end, then from the deep end.
 */
const insideFrame = (
  v: Tank,
  { cavity: c, beyondMm, topSetbackMm, deepBendDeg, shallowBendDeg }: TankSizes,
  panel: TankPanel,
): Omit<HoleFrame, 'thicknessMm'> => {
  const up: Vec2 = [0, 1];
  const right: Vec2 = [1, 0];
  switch (panel) {
    case 'top':
      return {
        origin: [beyondMm - topSetbackMm, v.thicknessMm - topSetbackMm],
        across: up,
        along: right,
      };
    case 'floor':
      return { origin: [beyondMm, -pastTangentMm(v, deepBendDeg)], across: up, along: right };
    case 'deep':
      // Seen from inside with the floor below, its left is at the right.
      return {
        origin: [c.widthMm + beyondMm, -pastTangentMm(v, deepBendDeg)],
        across: up,
        along: [-1, 0],
      };
    case 'shallow':
      return { origin: [beyondMm, -pastTangentMm(v, shallowBendDeg)], across: up, along: right };
    case 'left':
    case 'right':
      // The left plate is the mirror image of one drawn like the right.
      return { origin: [0, 0], across: up, along: right };
  }
};

/**
 * How far the outside faces lie in front of the inside ones. Places are measured from the outside
 * faces unless `measure` says inside.
 */
const insideShift = (
  v: Tank,
  s: TankSizes,
  panel: TankPanel,
): { readonly across: number; readonly along: number } => {
  if (v.measure === 'inside') return { across: 0, along: 0 };
  switch (panel) {
    case 'top':
      return { across: v.thicknessMm, along: s.beyondMm };
    case 'floor':
    case 'deep':
      return { across: s.deepCornerMm, along: s.beyondMm };
    case 'shallow':
      return { across: s.shallowCornerMm, along: s.beyondMm };
    case 'left':
    case 'right':
      return { across: s.deepCornerMm, along: v.thicknessMm };
  }
};

/** References from which the holes of a panel are measured. */
export const MEASURED_FROM: Readonly<Record<TankPanel, readonly [string, string]>> = {
  top: ['deep', 'left'],
  floor: ['deep', 'left'],
  deep: ['floor', 'left'],
  shallow: ['floor', 'left'],
  left: ['floor', 'deep'],
  right: ['floor', 'deep'],
};

/**
 * Findings on fittings whose figures are measured from something that their panel does not have.
 */
export const strayFittings = (v: Tank): Finding[] =>
  FITTINGS.flatMap((name) => {
    const panel = v[`${name}On`];
    const wanted = MEASURED_FROM[panel];
    const stray = v[name].find(
      ({ axes, isShort }) => isShort !== true && axes.some(({ from }, i) => from !== wanted[i]),
    );
    if (stray === undefined) return [];
    const said = stray.axes.map(({ from }) => from).join(' and ');
    return [
      refuse(
        'fitting-on-other-panel',
        [name, `${name}On`],
        `${name} is measured from ${said}, but ${name}On is ${panel}, where places are measured from ${wanted.join(' and ')}`,
        [],
        `write from ${wanted[0]} and from ${wanted[1]}`,
        `choose another ${name}On`,
      ),
    ];
  });

/** A hole by its place on the inside faces, mm, with half its size either way. */
export interface PlacedHole {
  /** Its name in findings, such as `filler 1`, and the input it came from. */
  readonly name: string;
  readonly input: string;
  readonly panel: TankPanel;
  readonly across: Reach;
  readonly along: Reach;
}

export interface Reach {
  readonly insideMm: number;
  readonly halfMm: number;
  /** Distance to be added to get the figure as the user measures it. */
  readonly shiftMm: number;
}

export const placedHoles = (v: Tank, s: TankSizes, panel: TankPanel): PlacedHole[] =>
  inputsOn(v, panel).flatMap((input) => v[input].map((spec) => placed(v, s, panel, input, spec)));

const placed = (
  v: Tank,
  s: TankSizes,
  panel: TankPanel,
  input: string,
  { acrossMm, alongMm, shape, number }: HoleSpec,
): PlacedHole => {
  const shift = insideShift(v, s, panel);
  const [radius, bar, turn] =
    shape.kind === 'slot'
      ? [shape.widthMm / 2, (shape.lengthMm - shape.widthMm) / 2, shape.turnDeg]
      : [reachOf(shape, v.thicknessMm), 0, 0];
  return {
    name: `${input} ${number}`,
    input,
    panel,
    across: {
      insideMm: acrossMm - shift.across,
      halfMm: radius + bar * Math.abs(sinDeg(turn)),
      shiftMm: shift.across,
    },
    // A slot runs along when its turn is 0.
    along: {
      insideMm: alongMm - shift.along,
      halfMm: radius + bar * Math.abs(cosDeg(turn)),
      shiftMm: shift.along,
    },
  };
};

/**
 * Height of the lowest point of a fitting's holes over the inside corner at the deep end; missing
 * where it has none below the top.
 */
export const lowestMm = (v: Tank, s: TankSizes, fitting: FittingName): number | undefined => {
  const panel = v[`${fitting}On`];
  if (panel === 'top' || v[fitting].length === 0) return undefined;
  return Math.min(...v[fitting].map((spec) => lowEdgeMm(s, placed(v, s, panel, fitting, spec))));
};

const lowEdgeMm = ({ cavity }: TankSizes, { panel, across }: PlacedHole): number => {
  const edge = across.insideMm - across.halfMm;
  if (panel === 'floor') return edge * sinDeg(slopeDeg(cavity));
  return panel === 'shallow' ? riseMm(cavity) + edge : edge;
};
