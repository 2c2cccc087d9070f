import { drawBlank } from '../../src/paper/draw/blank.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { contactFindings } from '../../src/fold/contact-findings.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { wholeBuilt } from '../../src/forms/built.ts';
import { readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import { askedOf } from '../../src/measure/asked-part.ts';
import { proveDxf } from '../../src/proof/proof.ts';
import { writeDxf } from '../../src/dxf/write/dxf.ts';
import { writeSvg } from '../../src/paper/write/svg.ts';
import tray from '../../templates/tray/index.ts';
import { nextInputs, template } from './brackets-work.ts';
import { type Answer, compare, timed } from './measure.ts';

const NOTES = { title: 'part', lines: ['s275 3 mm, 1 off'], mark: 'part', remarks: [] };

/**
 * What the proof of a written file costs, against the making of the part from its inputs to its
 * files.
 */
export default (): Answer[] => {
  const question = (name: string, family: Template, inputs: Record<string, unknown>): Answer => {
    const made = () => {
      const read = readInputs(family, inputs);
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      const { part } = wholeBuilt(family.build(read.values), read.values);
      if (part === undefined) throw new Error(`${name} cannot be built`);
      const flat = flatten(part, read.values.rule);
      if (contactFindings(part, flat).length > 0 || foldedSizeMm(part, flat).length !== 3)
        throw new Error(`${name} runs into itself`);
      const drawing = drawBlank(flat, NOTES);
      if (writeSvg(drawing, { cutOnly: false }) === '') throw new Error(`${name} has no SVG`);
      return { part, flat, dxf: writeDxf(drawing, { version: 'r2000', cutOnly: false }) };
    };
    const { part, flat, dxf } = made();
    const prove = (): void => {
      const proved = proveDxf(dxf, askedOf(part, flat, 0));
      if (!proved.ok || proved.proof.worstMm > 0.01) throw new Error(`${name} is not proved`);
    };
    return {
      question: `proof, ${name}`,
      ...compare(
        timed(prove),
        timed(() => void made()),
        40,
      ),
      against: 'inputs to DXF and SVG, the same part',
      aim: { on: 'cpuRatio', atMost: 2 },
    };
  };
  return [
    question('angle bracket', template, nextInputs()),
    question('tray', tray, tray.examples[0]?.inputs ?? {}),
  ];
};
