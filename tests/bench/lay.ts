import { layStrip } from '../../src/use/lay/lay-strip.ts';
import { PUBLISHED_LAYOUTS, type StripInstance } from '../helpers/strip-instances.ts';
import type { Answer } from './measure.ts';

/** Seconds of one core's time after which the density is read. */
const AFTER_SECONDS = [5, 10, 60];

/**
 * How densely strips are laid after some seconds of one core, against the means of longer runs that
 * were published. Densities hang on how fast the machine is, for the search is ended by time.
 */
export default (): Answer[] =>
  PUBLISHED_LAYOUTS.instances
    .filter(({ name }) => PUBLISHED_LAYOUTS.expected2025[name] !== undefined)
    .flatMap(densities);

const densities = (instance: StripInstance): Answer[] => {
  const { name } = instance;
  const published = PUBLISHED_LAYOUTS.expected2025[name] as number;
  const earlier = PUBLISHED_LAYOUTS.expected2013[name] as number;
  const aimed = Math.max(earlier, published - 1.5);
  const before = process.cpuUsage();
  const seconds = (): number => {
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1e6;
  };
  const answers: Answer[] = [];
  let density = 0;
  layStrip({
    text: JSON.stringify(instance),
    seed: 1,
    mayGoOn: (steps) => {
      const after = AFTER_SECONDS[answers.length];
      if (after !== undefined && seconds() >= after)
        answers.push({
          question: `strip ${name}, ${density.toFixed(2)} % after ${after} s of a core`,
          medianMs: after * 1000,
          perSecond: steps / after,
          ratio: density / published,
          against: `the ${published} % of 2025`,
          ...(after === 60 && { aim: `${aimed.toFixed(2)} %` }),
          ...(after === 5 && { aim: `${(aimed - 3).toFixed(2)} %` }),
        });
      return answers.length < AFTER_SECONDS.length;
    },
    onBetter: (_, percent) => {
      density = percent;
    },
  });
  return answers;
};
