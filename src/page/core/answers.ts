import { Core } from './core.ts';
import { inspected } from './inspect-answer.ts';
import type { Answers } from './questions.ts';
import { shopChanged, stripsAnswer } from './shop-answers.ts';

/** A core with nothing in it yet. What it has read and made last is kept for the next question. */
export const coreAnswers = (): Answers => {
  const core = new Core();
  return {
    families: () => core.families(),
    familyPicture: (family) => core.familyPicture(family),
    job: (texts) => core.job(texts),
    shape: (ask) => core.shape(ask),
    part: (ask) => core.part(ask, false),
    whole: (ask, tell) => core.part(ask, true, tell),
    folded: (ask) => core.folded(ask),
    sketch: (ask) => core.sketch(ask),
    drivers: (ask) => core.drivers(ask),
    holeWays: (ask) => core.holeWays(ask),
    proved: (ask) => core.proved(ask),
    model: (ask) => core.model(ask),
    section: (ask) => core.section(ask),
    paper: (ask) => core.paper(ask),
    redesigns: (ask) => core.redesigns(ask),
    files: (ask, tell) => core.files(ask, tell),
    ahead: (ask) => core.ahead(ask),
    cutlist: (texts, tell) => core.cutlist(texts, tell),
    pack: (texts, tell) => core.pack(texts, tell),
    shop: (text) => Promise.resolve(core.shop(text)),
    shopChanged: ({ shop, change }) => Promise.resolve(shopChanged(shop, change)),
    strips: (csv) => Promise.resolve(stripsAnswer(csv)),
    inspect: async ({ name, bytes, thickness }) => inspected(name, bytes, thickness),
  };
};
