import { polygon } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { layOnStock } from '../../src/lay/sheets/lay-on-stock.ts';
import { layStrip } from '../../src/use/lay/lay-strip.ts';
import { laidIn, part, request, sheet } from '../helpers/lay-requests.ts';
import {
  areaOf,
  RECTANGLES_ON_STOCK,
  RECTANGLES_ON_STRIP,
  requestOf,
} from '../helpers/rectangle-instances.ts';
import { PUBLISHED_LAYOUTS, type StripInstance } from '../helpers/strip-instances.ts';
import { type Answer, started, type Took } from './measure.ts';

/**
 * Seconds of one core's time after which the density is read. BENCH_SECONDS=5,10,60 takes seven
 * minutes more, and shows what is aimed at after 60.
 */
const AFTER_SECONDS = (process.env['BENCH_SECONDS'] ?? '5,10').split(',').map(Number);

/**
 * How densely strips are laid after some seconds of one core, against the means of longer runs that
 * were published; rectangles on a stock of several sheets, and on strips that they fill, one of each
 * size; and a thousand equal angles. Densities hang on how fast the machine is, for the search is
 * ended by time.
 */
export default (): Answer[] => [
  ...PUBLISHED_LAYOUTS.instances
    .filter(({ name }) => PUBLISHED_LAYOUTS.expected2025[name] !== undefined)
    .flatMap(densities),
  ...RECTANGLES_ON_STRIP.filter((_, i) => i % 2 === 0).flatMap(filled),
  ...RECTANGLES_ON_STOCK.filter(({ name }) => name.endsWith('a')).map(onStock),
  manyEqual(),
];

const densities = (instance: StripInstance): Answer[] => {
  const { name } = instance;
  const published = PUBLISHED_LAYOUTS.expected2025[name] as number;
  const earlier = PUBLISHED_LAYOUTS.expected2013[name] as number;
  const aimed = Math.max(earlier, published - 1.5);
  return readings(instance, AFTER_SECONDS).map(({ after, took, density, steps }) => ({
    question: `strip ${name}, ${density.toFixed(2)} % after ${after} s of a core`,
    ...rateOf(took, steps),
    ratio: { middle: density / published },
    against: `the ${published} % of 2025`,
    ...(after === 60 && { aim: { on: 'ratio', atLeast: aimed / published } }),
    ...(after === 5 && { aim: { on: 'ratio', atLeast: (aimed - 3) / published } }),
  }));
};

const filled = (instance: StripInstance): Answer[] =>
  readings(instance, [RECTANGLE_SECONDS]).map(({ after, took, density, steps }) => ({
    question: `strip ${instance.name}, rectangles, ${density.toFixed(2)} % after ${after} s of a core`,
    ...rateOf(took, steps),
    ratio: { middle: density / 100 },
    against: 'the strip filled',
  }));

interface Reading {
  readonly after: number;
  readonly took: Took;
  readonly density: number;
  readonly steps: number;
}

/** What is read of the search for a strip after some seconds of a core. */
const readings = (instance: StripInstance, afters: readonly number[]): Reading[] => {
  const stop = started();
  const read: Reading[] = [];
  let density = 0;
  layStrip({
    text: JSON.stringify(instance),
    seed: 1,
    mayGoOn: (steps) => {
      const after = afters[read.length];
      const took = stop();
      if (after !== undefined && took.cpuMs >= 1000 * after)
        read.push({ after, took, density, steps });
      return read.length < afters.length;
    },
    onBetter: (_, percent) => {
      density = percent;
    },
  });
  return read;
};

/** Seconds for rectangles, on stock and on strips. */
const RECTANGLE_SECONDS = Math.min(5, ...AFTER_SECONDS);

const onStock = (instance: (typeof RECTANGLES_ON_STOCK)[number]): Answer => {
  const stop = started();
  const { aim, left, steps } = layOnStock(requestOf(instance), {
    seed: 1,
    mayGoOn: () => stop().cpuMs < 1000 * RECTANGLE_SECONDS,
  });
  const used = (100 * areaOf(instance)) / aim.cost;
  const took = stop();
  return {
    question: `stock ${instance.name}, ${left.length === 0 ? `all on ${aim.cost}` : 'not all'}, ${used.toFixed(1)} % of the sheets used`,
    ...rateOf(took, steps),
    ratio: { middle: used / 100 },
    against: 'the area of the rectangles',
  };
};

const MANY = 1000;

/** Laid as a lattice at once: how long that takes, and how full the first sheet is. */
const manyEqual = (): Answer => {
  const stop = started();
  const angle = polygon([0, 0], [120, 0], [120, 40], [40, 40], [40, 100], [0, 100]);
  const asked = request([part('angle', angle, { quantity: MANY })], {
    pieces: [sheet('sheet', 2000, 1000)],
  });
  const { filled } = laidIn(0, asked);
  const count = filled[0]?.parts.length ?? 0;
  const took = stop();
  return {
    question: `${MANY} equal angles, ${count} on a sheet, ${filled.length} sheets`,
    ...rateOf(took, MANY),
    ratio: { middle: (count * signedArea(angle)) / (2000 * 1000) },
    against: 'the area of the sheet',
  };
};

/** Of the search, whose steps are counted by the seconds of the core that it had. */
const rateOf = (
  { wallMs, cpuMs }: Took,
  steps: number,
): Pick<Answer, 'wallMs' | 'cpuMs' | 'perSecond'> => ({
  wallMs: { middle: wallMs },
  cpuMs: { middle: cpuMs },
  perSecond: (1000 * steps) / cpuMs,
});
