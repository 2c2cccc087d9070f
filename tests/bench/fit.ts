import { makeParts, type MakeOptions } from '../../src/use/make/make-parts.ts';
import type { Template } from '../../src/forms/template.ts';
import angle from '../../templates/bracket-angle/index.ts';
import channel from '../../templates/bracket-channel/index.ts';
import tray from '../../templates/tray/index.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { type Answer, compare, timed } from './measure.ts';

const OPTIONS: MakeOptions = {
  cutOnly: false,
  dxfVersion: 'r2000',
  shop: { ...DEFAULT_SHOP, machines: [] },
};

/**
 * What it costs to say how well a part will fit, all of its lengths measured, against making it
 * without that.
 */
export default (): Answer[] => {
  const question = (name: string, family: Template): Answer => {
    const inputs = family.examples[0]?.inputs ?? {};
    const make = (options: MakeOptions) => (): void => {
      const made = makeParts(family, inputs, options);
      if (
        !made.ok ||
        made.parts.some((p) => p.stopped || (p.result.fit === null) !== (options.fit === undefined))
      )
        throw new Error(`${name} cannot be made`);
    };
    return {
      question: `made with fit, ${name}`,
      ...compare(
        timed(make({ ...OPTIONS, fit: { measuredWith: 'tape', tolerance: 'm' } })),
        timed(make(OPTIONS)),
        20,
      ),
      against: 'the same part without',
      aim: { on: 'cpuRatio', atMost: 15 },
    };
  };
  return [question('angle bracket', angle), question('channel', channel), question('tray', tray)];
};
