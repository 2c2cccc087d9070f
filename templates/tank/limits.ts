import {
  cornerInput,
  cornerMm,
  figure,
  isOver,
  isUnder,
  just,
  lengthOfEdge,
  NOISE_MM,
  orLess,
  orMore,
  orTry,
  refuse,
  NOISE_DEG,
} from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import { MOST_BAFFLES, shortBays, tooManyBaffles } from '../baffle/bay-limits.ts';
import { baysOf } from './baffles.ts';
import { bendReachMm, outsideFlangeMm, tankSizes, type TankSizes } from './sizes.ts';
import { depthAtMm, floorMm, PROFILE_EDGES, profileOutline, slopeDeg } from './volume.ts';
import type { Tank } from './inputs.ts';

/** Greatest slope of the floor; a steeper floor leaves an end that no weld reaches into. */
const STEEPEST_DEG = 60;

/** Findings on what cannot be cut, folded or put together, each with a figure that can be. */
export const impossibleTank = (v: Tank, s: TankSizes): Finding[] => {
  const figures = [...wedge(v, s), ...inside(v, s)];
  if (figures.length > 0) return figures;
  const used = bends(v, s);
  return used.length > 0 ? used : [...ends(v, s), ...top(v, s), ...bays(v, s)];
};

function wedge(v: Tank, { cavity }: TankSizes): Finding[] {
  const shallow = v.heightShallow ?? v.height;
  if (isOver(shallow, v.height))
    return [
      refuse(
        'shallow-end-deeper',
        ['heightShallow', 'height'],
        `heightShallow ${figure(shallow)} is more than height ${figure(v.height)}, which is the deep end`,
        [orLess('heightShallow', v.height), orMore('height', shallow)],
      ),
    ];
  if (
    slopeDeg({ ...cavity, lengthMm: v.length, deepMm: v.height, shallowMm: shallow }) <=
    STEEPEST_DEG + NOISE_DEG
  )
    return [];
  const least = v.height - v.length * Math.tan((STEEPEST_DEG * Math.PI) / 180);
  const what = `heightShallow ${figure(shallow)} lets the floor rise from height ${figure(v.height)} by ${figure(v.height - shallow)} mm over length ${figure(v.length)}, more than ${STEEPEST_DEG} degrees`;
  return [
    orTry(
      refuse('floor-too-steep', ['heightShallow', 'height', 'length'], what, [
        orMore('heightShallow', least),
      ]),
      'length',
    ),
  ];
}

/** Findings on sizes that leave no room inside for the gaps and something beside them. */
function inside(v: Tank, { cavity: c }: TankSizes): Finding[] {
  const least = 2 * v.cornerGapMm + 2 * v.thicknessMm;
  const sizes = [
    ['length', v.length, c.lengthMm],
    ['width', v.width, c.widthMm],
    ['height', v.height, c.deepMm],
    ['heightShallow', v.heightShallow ?? v.height, c.shallowMm],
  ] as const;
  return sizes
    .filter(
      ([input, , left]) =>
        isUnder(left, least) && (input !== 'heightShallow' || v.heightShallow !== undefined),
    )
    .map(([input, given, left]) =>
      refuse(
        'tank-too-small',
        [input],
        `${input} ${figure(given)} leaves nothing inside the tank`,
        [orMore(input, given + least - left)],
      ),
    );
}

/** An end, or the floor, that is shorter than its bends and a thickness to fold it by. */
interface AllBend {
  readonly rule: 'end-all-bend' | 'floor-all-bend';
  readonly input: 'height' | 'heightShallow' | 'length';
  /** Length that the bends take for each millimetre of radius. */
  readonly perRadius: number;
  /** Length that they may take. */
  readonly roomMm: number;
}

const allBends = (v: Tank, s: TankSizes): AllBend[] => {
  const { cavity: c, deepBendDeg, shallowBendDeg } = s;
  const [deep, shallow] = [
    bendReachMm({ ...v, insideRadiusMm: 1 }, deepBendDeg),
    bendReachMm({ ...v, insideRadiusMm: 1 }, shallowBendDeg),
  ];
  const found: AllBend[] = [
    {
      rule: 'end-all-bend',
      input: 'height',
      perRadius: deep,
      roomMm: c.deepMm - v.thicknessMm - v.cornerGapMm,
    },
    {
      rule: 'floor-all-bend',
      input: 'length',
      perRadius: deep + shallow,
      roomMm: floorMm(c) - v.thicknessMm,
    },
  ];
  if (v.heightShallow !== undefined)
    found.push({
      rule: 'end-all-bend',
      input: 'heightShallow',
      perRadius: shallow,
      roomMm: c.shallowMm - v.thicknessMm - v.cornerGapMm,
    });
  return found.filter(({ perRadius, roomMm }) => v.insideRadiusMm * perRadius > roomMm + NOISE_MM);
};

function bends(v: Tank, s: TankSizes): Finding[] {
  return allBends(v, s).map(({ rule, input, perRadius, roomMm }) => {
    const given = v[input] ?? v.height;
    const least = leastThatFits(
      given,
      (value) =>
        !allBends({ ...v, [input]: value }, tankSizes({ ...v, [input]: value })).some(
          (b) => b.input === input,
        ),
    );
    const radius = roomMm >= 0 ? [orLess('radius', roomMm / perRadius)] : [];
    return refuse(
      rule,
      [input, 'radius'],
      `${input} ${figure(given)} is used up by the bends of the wrap, of radius ${figure(v.insideRadiusMm)}`,
      [...(least === undefined ? [] : [orMore(input, least)]), ...radius],
    );
  });
}

/** Accuracy to which a size is searched for, mm or degrees. */
const FOUND_TO = 1e-4;

/**
 * The least value of a size that fits. The slope of the floor changes with every size, and its
 * bends with it, so the value is searched for, up to ten times the size.
 */
function leastThatFits(given: number, fits: (value: number) => boolean): number | undefined {
  let [low, high] = [given, 10 * given];
  if (!fits(high)) return undefined;
  while (high - low > FOUND_TO) {
    const middle = (low + high) / 2;
    if (fits(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Findings on flanges of the plates at the sides that are too shallow for their bends, or on edges
 * that leave no metal between them.
 */
function ends(v: Tank, s: TankSizes): Finding[] {
  if (v.ends === 'flush') return [];
  const setback = v.insideRadiusMm + v.thicknessMm;
  const lacking = setback + v.thicknessMm - outsideFlangeMm(v);
  if (lacking > NOISE_MM)
    return [
      orTry(
        refuse('flange-too-narrow', ['endFlange'], `endFlange ${figure(v.endFlange)} is all bend`, [
          orMore('endFlange', v.endFlange + lacking),
          just('ends', 'flush'),
        ]),
        'radius',
      ),
    ];
  const outline = profileOutline(s.cavity, v.cornerGapMm);
  const needed = 2 * (2 * setback + Math.max(v.thicknessMm, v.leastSlotMm) + v.cornerGapMm);
  const short = PROFILE_EDGES.map((edge) => ({
    lacking: needed - lengthOfEdge(outline, edge),
    input: EDGE_INPUTS[edge],
  }));
  const worst = short.reduce((a, b) => (b.lacking > a.lacking ? b : a));
  if (worst.lacking <= NOISE_MM) return [];
  const input =
    worst.input === 'heightShallow' && v.heightShallow === undefined ? 'height' : worst.input;
  return [
    orTry(
      refuse(
        'end-too-small',
        [input, 'ends'],
        `${input} ${figure(v[input] ?? v.height)} makes an edge of the plates at the sides ${figure(worst.lacking)} mm too short for its flange`,
        [just('ends', 'flush')],
      ),
      input,
      'radius',
    ),
  ];
}

/** The inputs that give the lengths of the edges of a plate at a side. */
const EDGE_INPUTS = {
  floor: 'length',
  shallow: 'heightShallow',
  roof: 'length',
  deep: 'height',
} as const;

/**
 * The top has to lie on the walls, and to cover the corners of the inside when its own are rounded.
 */
function top(v: Tank, { topSetbackMm }: TankSizes): Finding[] {
  const lap = v.thicknessMm - topSetbackMm;
  if (lap <= NOISE_MM)
    return [
      refuse(
        'top-falls-in',
        ['topSetback'],
        `topSetback ${figure(topSetbackMm)} keeps the top sheet off the walls, which are ${figure(v.thicknessMm)} mm thick`,
        [orLess('topSetback', v.thicknessMm / 2)],
      ),
    ];
  // An arc of radius R stays R (1 - 1 / sqrt 2) inside its corner on both axes, a chamfer half its
  // size.
  const largest = lap / (v.cornerChamferMm > 0 ? 0.5 : 1 - Math.SQRT1_2);
  return cornerMm(v) > largest + NOISE_MM
    ? [
        orTry(
          refuse(
            'top-corner-open',
            [cornerInput(v)],
            `${cornerInput(v)} ${figure(cornerMm(v))} leaves the corners of the tank open at the top`,
            [orLess(cornerInput(v), largest)],
          ),
          'topSetback',
        ),
      ]
    : [];
}

function bays(v: Tank, { cavity: c }: TankSizes): Finding[] {
  const { count, bayMm, stationsMm, thicknessMm } = baysOf(v, c);
  if (count === 0) return [];
  if (count > MOST_BAFFLES) return [tooManyBaffles('length', v, c.lengthMm, count, MOST_BAFFLES)];
  if (isUnder(bayMm, v.flange + v.clearance)) return [shortBays(v, bayMm)];
  const last = depthAtMm(c, (stationsMm.at(-1) ?? 0) + thicknessMm);
  if (last > 2 * v.clearance + thicknessMm) return [];
  const shallow = v.heightShallow === undefined ? ['height'] : ['heightShallow'];
  return [
    orTry(
      refuse(
        'baffle-too-small',
        ['longestBay', ...shallow],
        `longestBay ${figure(v.longestBay)} puts a last baffle where the tank is only ${figure(last)} mm deep, for ${shallow.join('')} ${figure(v.heightShallow ?? v.height)}`,
        [],
      ),
      'longestBay',
      ...shallow,
    ),
  ];
}
