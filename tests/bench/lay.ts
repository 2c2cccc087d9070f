import { layOnStock } from '../../src/lay/sheets/lay-on-stock.ts';
import { layStrip } from '../../src/use/lay/lay-strip.ts';
import {
  areaOf,
  RECTANGLES_ON_STOCK,
  RECTANGLES_ON_STRIP,
  requestOf,
} from '../helpers/rectangle-instances.ts';
import { PUBLISHED_LAYOUTS, type StripInstance } from '../helpers/strip-instances.ts';
import type { Answer } from './measure.ts';

/** Seconds of one core's time after which the density is read. */
const AFTER_SECONDS = [5, 10, 60];

/**
 * How densely strips are laid after some seconds of one core, against the means of longer runs that
 * were published; and rectangles on a stock of several sheets, and on strips that they fill.
 * Densities hang on how fast the machine is, for the search is ended by time.
 */
export default (): Answer[] => [
  ...PUBLISHED_LAYOUTS.instances
    .filter(({ name }) => PUBLISHED_LAYOUTS.expected2025[name] !== undefined)
    .flatMap(densities),
  ...RECTANGLES_ON_STRIP.flatMap(filled),
  ...RECTANGLES_ON_STOCK.map(onStock),
];

const densities = (instance: StripInstance): Answer[] => {
  const { name } = instance;
  const published = PUBLISHED_LAYOUTS.expected2025[name] as number;
  const earlier = PUBLISHED_LAYOUTS.expected2013[name] as number;
  const aimed = Math.max(earlier, published - 1.5);
  return readings(instance, AFTER_SECONDS).map(({ after, density, steps }) => ({
    question: `strip ${name}, ${density.toFixed(2)} % after ${after} s of a core`,
    medianMs: after * 1000,
    perSecond: steps / after,
    ratio: density / published,
    against: `the ${published} % of 2025`,
    ...(after === 60 && { aim: `${aimed.toFixed(2)} %` }),
    ...(after === 5 && { aim: `${(aimed - 3).toFixed(2)} %` }),
  }));
};

const filled = (instance: StripInstance): Answer[] =>
  readings(instance, [10]).map(({ after, density, steps }) => ({
    question: `strip ${instance.name}, rectangles, ${density.toFixed(2)} % after ${after} s of a core`,
    medianMs: after * 1000,
    perSecond: steps / after,
    ratio: density / 100,
    against: 'the strip filled',
  }));

/** What is read of the search for a strip after some seconds of a core. */
const readings = (
  instance: StripInstance,
  afters: readonly number[],
): { readonly after: number; readonly density: number; readonly steps: number }[] => {
  const seconds = coreSeconds();
  const read: { after: number; density: number; steps: number }[] = [];
  let density = 0;
  layStrip({
    text: JSON.stringify(instance),
    seed: 1,
    mayGoOn: (steps) => {
      const after = afters[read.length];
      if (after !== undefined && seconds() >= after) read.push({ after, density, steps });
      return read.length < afters.length;
    },
    onBetter: (_, percent) => {
      density = percent;
    },
  });
  return read;
};

/** Seconds for rectangles on stock. */
const ON_STOCK_SECONDS = 10;

const onStock = (instance: (typeof RECTANGLES_ON_STOCK)[number]): Answer => {
  const seconds = coreSeconds();
  const { aim, left, steps } = layOnStock(requestOf(instance), {
    seed: 1,
    mayGoOn: () => seconds() < ON_STOCK_SECONDS,
  });
  const used = (100 * areaOf(instance)) / aim.cost;
  const took = seconds();
  return {
    question: `stock ${instance.name}, ${left.length === 0 ? `all on ${aim.cost}` : 'not all'}, ${used.toFixed(1)} % of the sheets used`,
    medianMs: took * 1000,
    perSecond: steps / took,
    ratio: used / 100,
    against: 'the area of the rectangles',
  };
};

const coreSeconds = (): (() => number) => {
  const before = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  };
};
