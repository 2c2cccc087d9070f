import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { readCase } from '../../src/plan/of-panels/panels.ts';
import { planFolds } from '../../src/plan/search/plan.ts';
import { corrugated, flappedTray, type MadeCase, tooDeepChannel } from '../plan/parts.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { Template } from '../../src/forms/template.ts';
import { bendTable } from '../../src/model/shop.ts';
import { planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import ductBox from '../../templates/duct-box/index.ts';
import heelRest from '../../templates/heel-rest/index.ts';
import tray from '../../templates/tray/index.ts';
import { wholeWay } from './brackets-work.ts';
import { type Answer, compare, once, type Timed, timed } from './measure.ts';

/**
 * How the time of a fold plan grows from 4 to 20 folds: to the cheapest order, and to the proof
 * that there is none.
 */
export default (): Answer[] => {
  const bare = timed(wholeWay);
  const question = (name: string, verdict: string, given: MadeCase): Answer => ({
    question: `fold plan, ${name}, ${given.part.bends.length} folds`,
    ...compare(planned(given, verdict), bare, 3),
    against: 'inputs to DXF and SVG, angle bracket',
    ...(given.part.bends.length === 12 && { aim: { on: 'cpuMs', atMost: 1000 } }),
    ...(given.part.bends.length === 20 && { aim: { on: 'cpuMs', atMost: 10_000 } }),
  });
  const shop = (name: string, family: Template, example: number): Answer => ({
    question: `plan on the shop, ${name}`,
    ...compare(plannedOnShop(family, example), bare, 5),
    against: 'inputs to DXF and SVG, angle bracket',
    aim: { on: 'cpuMs', atMost: 100 },
  });
  const onShop = [
    shop('a tray that needs hands', tray, 2),
    shop('a duct that no machine folds', ductBox, 2),
  ];
  const refused: Answer = {
    question: 'plan, a heel rest that no machine folds, and what would help',
    ...compare(refusedPlan, bare, 3),
    against: 'inputs to DXF and SVG, angle bracket',
    aim: { on: 'cpuMs', atMost: 1000 },
  };
  const grown = [4, 8, 12, 16, 20].flatMap((folds) => [
    question('tray of flaps', 'feasible', flappedTray(BOX_PAN.id, folds)),
    question('corrugated', 'feasible', corrugated(BOX_PAN.id, folds)),
    question('no order', 'impossible', tooDeepChannel(BOX_PAN.id, folds)),
  ]);
  return [...grown, ...onShop, refused];
};

/** The parts of an example, planned as `make` plans them. */
const plannedOnShop = (family: Template, example: number): Timed => {
  const inputs = family.examples[example - 1]?.inputs ?? {};
  const made = makeParts(family, inputs, { foldAt: 'service', shop: DEFAULT_SHOP });
  if (!made.ok) throw new Error(`${family.family} was not made`);
  const folds = made.parts.flatMap(({ part, flat, material }) =>
    flat === undefined
      ? []
      : [{ part, flat, material, bends: bendTable(DEFAULT_SHOP, material.id) }],
  );
  return timed(() => folds.forEach((fold) => planOnShop(fold, DEFAULT_SHOP.machines)));
};

const refusedPlan = once(() => {
  const planned = planParts({ template: heelRest, inputs: heelRest.examples[2]?.inputs ?? {} });
  if (!planned.ok || planned.isFoldable) throw new Error('it was to be refused');
});

/** Once: the search remembers nothing from one part to the next. */
const planned = (given: MadeCase, verdict: string): Timed =>
  once(() => {
    const read = readCase(given);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const answer = planFolds(read.net, read.machine);
    if (answer.verdict !== verdict)
      throw new Error(`${given.part.bends.length} folds: ${answer.verdict}`);
  });
