import { foldedView } from '../../src/paper/draw/folded-view.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { wholeBuilt } from '../../src/forms/built.ts';
import { readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import { loadKernel } from '../../src/solid/step.ts';
import { stepBody } from '../../src/solid/step-body.ts';
import { StepKernel } from '../../src/solid/step-kernel.ts';
import heelRest from '../../templates/heel-rest/index.ts';
import tray from '../../templates/tray/index.ts';
import { nextInputs, template } from './brackets-work.ts';
import { type Answer, compare, once, timed } from './measure.ts';

const SAG_MM = 0.1;

/**
 * What the folded part and its picture cost, against flattening the same part, and against a solid
 * kernel's body of it.
 */
export default async (): Promise<Answer[]> => {
  const kernel = await loadKernel();
  const question = (name: string, family: Template, inputs: Record<string, unknown>): Answer[] => {
    const read = readInputs(family, inputs);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const { rule } = read.values;
    const { part } = wholeBuilt(family.build(read.values), read.values);
    if (part === undefined) throw new Error(`${name} cannot be built`);
    const flat = flatten(part, rule);
    const labels = new Map(part.folds.map((f) => [f.id, f.id]));
    const mesh = () => {
      const made = foldedMesh(part, flat, SAG_MM);
      if (made === undefined) throw new Error(`${name} has no mesh`);
      return made;
    };
    const drawn = (): void => {
      if (
        foldedView(mesh(), { widthMm: 120, heightMm: 90, labels, sizes: ['1', '2', '3'] }).items
          .length === 0
      )
        throw new Error(`${name} is not drawn`);
    };
    return [
      {
        question: `folded mesh, ${name}`,
        ...compare(
          timed(() => void mesh()),
          timed(() => void flatten(part, rule)),
          20,
        ),
        against: 'flattening the same part',
      },
      {
        question: `folded mesh and its picture, ${name}`,
        ...compare(
          timed(drawn),
          timed(() => void flatten(part, rule)),
          20,
        ),
        against: 'flattening the same part',
        aim: { on: 'cpuMs', atMost: 50 },
      },
      {
        question: `body by the solid kernel, ${name}`,
        ...compare(
          once(() => solid(kernel, part, flat)),
          timed(() => void mesh()),
          5,
        ),
        against: 'folded mesh of the same part',
      },
      {
        question: `body by the solid kernel, ${name}`,
        ...compare(
          once(() => solid(kernel, part, flat)),
          timed(() => void flatten(part, rule)),
          5,
        ),
        against: 'flattening the same part',
        aim: { on: 'cpuRatio', atLeast: 500 },
      },
    ];
  };
  return [
    ...question('angle bracket', template, nextInputs()),
    ...question('tray', tray, tray.examples[0]?.inputs ?? {}),
    ...question('heel rest with its grip holes', heelRest, heelRest.examples[0]?.inputs ?? {}),
  ];
};

const solid = (
  kernel: Awaited<ReturnType<typeof loadKernel>>,
  part: Part,
  flat: FlatPattern,
): void => {
  const own = new StepKernel(kernel);
  if (stepBody(own, part, flat) === undefined) throw new Error('no body');
  own.free();
};
