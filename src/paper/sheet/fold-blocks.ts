import type { Printed } from '../../text/printed.ts';
import { type CellSize, fewCells } from '../draw/fold-cells.ts';
import { foldScenes } from '../draw/fold-scene.ts';
import { restsOnWords, STEP_KEY, stepWords } from '../draw/fold-words.ts';
import { hasStop } from '../../model/finding.ts';
import { GUTTER_MM, type SheetBlock, type SheetStep, texts } from './content.ts';
import type { SheetPart } from './sheet-head.ts';

/** Pictures of a step alone on its row, and of two side by side: three fill it, but for a gap. */
const CELLS = { 1: { gapMm: 5, high: 44 / 60 }, 2: { gapMm: 1.8, high: 24 / 29.5 } } as const;

const cellOf = (across: 1 | 2, wide: number): CellSize => {
  const { gapMm, high } = CELLS[across];
  const widthMm = ((across === 1 ? wide : (wide - GUTTER_MM) / 2) - 2 * gapMm) / 3;
  return { widthMm, heightMm: high * widthMm };
};

/** How the part is folded, step by step, `wide` mm wide, or why nothing is said of that. */
export const foldBlocks = (
  { result: { foldPlan, bends, findings }, plan, part, flat }: SheetPart,
  wide: number,
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
      pictures: scene === undefined ? [] : fewCells(scene, cellOf(across, wide)),
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
