import {
  asBoltHole,
  diameterWish,
  edge,
  faceOf,
  FROM_LEFT,
  meeting,
  placeHoles,
  stripPart,
  wish,
} from '../../src/template.ts';
import type {
  Built,
  Feature,
  HoleAxes,
  HoleSpec,
  Part,
  StripFold,
  StripPanel,
  Wish,
} from '../../src/template.ts';
import { railEnds, railFlange, strapNames, strapPlaces } from './sizes.ts';
import type { Cradle } from './inputs.ts';

const DOWN: StripFold = { angleDeg: 90, direction: 'down' };

/** From the free edge of the flange, which looks towards the tank. */
const RAIL_AXES: HoleAxes = [{ from: 'edge', at: 'the free edge of the flange' }, FROM_LEFT];

/** The rail lying as it is bolted on: its flange up, the web folded down behind it. */
export const railPart = (v: Cradle): Built => {
  const [from, to] = railEnds(v);
  const { wideMm } = railFlange(v);
  const lip: StripPanel = { id: 'lip', lengthMm: v.railLip, input: 'railLip' };
  const rows: readonly StripPanel[] = [
    { id: 'flange', lengthMm: v.measure === 'outside' ? wideMm : wideMm - v.thicknessMm },
    { id: 'web', lengthMm: v.railWeb, input: 'railWeb' },
    ...(v.rail === 'channel' ? [lip] : []),
  ];
  const folds = v.rail === 'channel' ? [DOWN, DOWN] : [DOWN];
  const built = stripPart(v, to - from, rows, folds, 'flange');
  return built.part === undefined ? built : { ...built, part: withHoles(v, built.part) };
};

const withHoles = (v: Cradle, part: Part): Part => {
  const { thicknessMm } = v;
  const frame = { origin: [0, 0], across: [0, 1], along: [1, 0], thicknessMm } as const;
  const straps = strapPlaces(v);
  const chassis = [v.chassisAt, v.chassisAt + v.chassisPitch];
  const cutouts = [
    ...placeHoles('boltHole', railHoles(v, straps, v.boltHole, strapNames(v)), frame),
    ...placeHoles('chassisHole', railHoles(v, chassis, v.chassisHole, CHASSIS), frame),
  ];
  return {
    ...part,
    panels: part.panels.map((panel) => (panel.id === 'flange' ? { ...panel, cutouts } : panel)),
    wishes: [...railWishes(v), ...(part.wishes ?? []).filter((w) => w.input !== 'width')],
  };
};

const CHASSIS = ['chassis', 'chassis'] as const;

const railHoles = (
  v: Cradle,
  places: readonly number[],
  diameterMm: number,
  meets: readonly [string, string],
): HoleSpec[] =>
  places.map((along, i) => ({
    acrossMm: railFlange(v).boltMm,
    alongMm: along - railEnds(v)[0],
    number: String(i + 1),
    axes: RAIL_AXES,
    ...meeting(asBoltHole({ shape: { kind: 'round', diameterMm } }), meets[i] ?? ''),
  }));

/** What the inputs mean on the rail: its holes to each other, to its ends and to the web. */
const railWishes = (v: Cradle): Wish[] => {
  const hole = (from: string): Feature => ({ kind: 'hole', panel: 'flange', from });
  const [left, right] = strapPlaces(v);
  const next = v.chassisAt + v.chassisPitch;
  const holes = [
    ['boltHole 1', left],
    ['boltHole 2', right],
    ['chassisHole 1', v.chassisAt],
    ['chassisHole 2', next],
  ] as const;
  const [one, other, ofChassis, last] = holes.map(([from]) => hole(from)) as [
    Feature,
    Feature,
    Feature,
    Feature,
  ];
  const inOrder = holes.toSorted((a, b) => a[1] - b[1]);
  const outermost = [inOrder[0], inOrder.at(-1)].map((at) => hole(at?.[0] ?? ''));
  return [
    wish('length - leftStrap - rightStrap', right - left, one, other),
    wish('chassisPitch', v.chassisPitch, ofChassis, last),
    wish('leftStrap - chassisAt', Math.abs(left - v.chassisAt), one, ofChassis),
    wish('rightStrap + chassisAt + chassisPitch - length', Math.abs(next - right), other, last),
    ...outermost.map((end, i) =>
      wish('railBeyond', v.railBeyond, end, edge('flange', i === 0 ? 'left' : 'right')),
    ),
    wish(
      'beyond + clearance + radius',
      v.beyond + v.clearance + v.insideRadiusMm,
      one,
      faceOf('web', 'down', 'inside'),
    ),
    ...[1, 2].flatMap((i) => [
      diameterWish('boltHole', v.boltHole, 'flange', `boltHole ${i}`),
      diameterWish('chassisHole', v.chassisHole, 'flange', `chassisHole ${i}`),
    ]),
  ];
};
