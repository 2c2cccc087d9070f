import type { Printed } from '../../text/printed.ts';
import { fewCells } from '../draw/fold-cells.ts';
import { foldScenes } from '../draw/fold-scene.ts';
import { restsOnWords, STEP_KEY, stepWords } from '../draw/fold-words.ts';
import { hasStop } from '../../model/finding.ts';
import { type SheetBlock, type SheetStep, texts } from './content.ts';
import type { SheetPart } from './sheet-head.ts';

/** Pictures of a step alone on its row, and of two side by side. */
const CELLS = { 1: { widthMm: 60, heightMm: 44 }, 2: { widthMm: 29.5, heightMm: 24 } } as const;

/** How the part is folded, step by step, or why nothing is said of that. */
export const foldBlocks = (
  { result: { foldPlan, bends, findings }, plan, part, flat }: SheetPart,
  print: Printed,
): SheetBlock[] => {
  if (bends.length === 0) return [];
  if (foldPlan === null)
    return texts('Folding', [
      { text: 'No order of folds was planned: it is folded by a service, or by hand.' },
    ]);
  if (foldPlan.feasible !== true)
    return texts('Folding', [
      {
        text: `No order of folds is known for ${plan?.machine.name ?? foldPlan.machine}: see the findings.`,
      },
    ]);
  // Of a stopped part there is nothing to be folded up.
  const scenes =
    plan === undefined || hasStop(findings) ? [] : foldScenes(plan, { part, flat, print });
  const across = foldPlan.steps.length > 1 ? 2 : 1;
  const steps = foldPlan.steps.map((step, i): SheetStep => {
    const { title, moves, lines } = stepWords(step, i + 1, print);
    const scene = scenes[i];
    return {
      title,
      lines: [...(moves === null ? [] : [`FIRST ${moves.replace(/^first /, '')}.`]), ...lines],
      pictures: scene === undefined ? [] : fewCells(scene, CELLS[across]),
    };
  });
  return [
    {
      kind: 'steps',
      title: 'Folding',
      captions: [
        `On ${plan?.machine.name ?? foldPlan.machine}. Pictures: before, after, and the part as it lies. ${STEP_KEY}`,
        `Rests on ${restsOnWords(foldPlan)}.`,
      ],
      across,
      steps,
    },
  ];
};
