import { cautionsAmong } from '../../data/cautions.ts';
import { includedDeg } from '../../text/angles.ts';
import { figure } from '../../text/figures.ts';
import type { Printed } from '../../text/printed.ts';
import type { BendStep } from '../../tube/bend-steps.ts';
import type { BentTube } from '../../tube/bent-tube.ts';
import { LEAST_OF_FLUID_LINE, LEAST_OVER_GREATEST } from '../../tube/limits.ts';
import type { FindingResult } from '../../contract/part.ts';
import type { Column, SheetBlock, TableBlock } from '../sheet/content.ts';
import { texts } from '../sheet/content.ts';

const big = (name: string): Column => ({ name, isBig: true });
const plain = (name: string): Column => ({ name });
const words = (name: string): Column => ({ name, isText: true });

/** What is done before a bend, with the tube in the hands. */
export const turnText = ({ turnDeg, endForEnd, clampAt }: BendStep, isFirst: boolean): string => {
  const clamp = clampAt === 'lead' ? 'leading end in the clamp' : 'tail in the clamp';
  if (isFirst) return clamp;
  const turned =
    Math.abs(turnDeg) < 0.05
      ? 'no turn'
      : Math.abs(turnDeg) > 179.95
        ? 'half a turn'
        : `${figure(Math.abs(turnDeg), 1)}° ${turnDeg > 0 ? 'clockwise' : 'anticlockwise'}`;
  return endForEnd ? `END FOR END, ${clamp}, then ${turned}` : turned;
};

/** The table that a tube is bent by: a row each pull, in the order in which they are made. */
export const stepTable = ({ steps, sheet }: BentTube, print: Printed): TableBlock[] =>
  steps.length === 0
    ? []
    : [
        {
          kind: 'table',
          title: 'Bending, step by step',
          columns: [
            { name: 'Bend', isBig: true },
            big(`Mark ${print.word}`),
            { name: 'Turn the tube', isBig: true, isText: true },
            big('Pull to °'),
            plain('Bend °'),
            plain('Angle finder reads °'),
            big(`Check ${print.word}`),
            { name: 'Found', isBox: true },
          ],
          rows: steps.map((step, i) => {
            const { angleDeg, pullToDeg } = sheet.bends[
              step.bend
            ] as BentTube['sheet']['bends'][number];
            return [
              String(step.bend + 1),
              print.tape(step.markMm, 1),
              turnText(step, i === 0),
              figure(pullToDeg, 1),
              figure(angleDeg, 1),
              figure(includedDeg(angleDeg), 1),
              print.tape(step.checkMm, 1),
              '',
            ];
          }),
          captions: [
            "Mark: from the leading end, to be laid on the bender's own mark. Turn: from the bend before, as seen from the end that is not clamped, looking towards the clamp; scribe a line along the tube first, and turn by it.",
            'Pull to: the scale of the bender, springback allowed for. Angle finder: between the legs, once the tube is let go. Check: from the middle of one end of the tube to the middle of the other, straight across, once the bend is made.',
          ],
        },
      ];

/** What lies along the finished tube. */
export const alongTable = ({ sheet, diameterMm }: BentTube, print: Printed): TableBlock => ({
  kind: 'table',
  title: 'Along the tube, from the leading end',
  columns: [
    words('What'),
    plain(`Length ${print.word}`),
    plain(`Begins at ${print.word}`),
    plain('Angle °'),
    plain('Rotation °'),
    plain(`Centre-line radius ${print.word}`),
    plain(`Least diameter across ${print.word}`),
  ],
  rows: sheet.straightsMm.flatMap((mm, i) => {
    const bend = sheet.bends[i];
    const before = sheet.bends[i - 1];
    const from = before === undefined ? sheet.waste.leadMm : before.startMm + before.arcMm;
    const straight = [
      `straight ${i + 1}`,
      print.machine(mm, 1),
      print.machine(from, 1),
      '-',
      '-',
      '-',
      '-',
    ];
    return bend === undefined
      ? [straight]
      : [
          straight,
          [
            `bend ${i + 1}`,
            print.machine(bend.arcMm, 1),
            print.machine(bend.startMm, 1),
            figure(bend.angleDeg),
            figure(bend.rotateDeg),
            print.machine(bend.radiusMm, 1),
            print.machine(LEAST_OVER_GREATEST * diameterMm, 1),
          ],
        ];
  }),
  captions: [
    `Rotation: of the plane of a bend from that of the one before, about the way from the leading end, by the right hand. Least diameter across: ${figure(100 * LEAST_OVER_GREATEST)} % of the tube's, as rules for cages have it (FIA Appendix J 253-8.3.3); maintenance texts for fluid lines ask for ${figure(100 * LEAST_OF_FLUID_LINE)} % at least.`,
  ],
  isClose: sheet.bends.length > 6,
});

/** Where errors of each bend bring the far end of the tube. */
export const errorTable = ({ errors, asked }: BentTube, print: Printed): TableBlock[] => {
  const { angleDeg, rotateDeg, markMm } = asked.within;
  const { shares, likelyMm, worst } = errors;
  if (worst === undefined) return [];
  return [
    {
      kind: 'table',
      title: 'What errors do at the far end',
      columns: [
        { name: 'Bend', isText: true },
        plain(`Angle ${print.word}`),
        plain(`Rotation ${print.word}`),
        plain(`Mark ${print.word}`),
      ],
      rows: shares.map((share, i) => [
        i === worst ? `${i + 1}, matters most` : String(i + 1),
        print.machine(share.angleMm, 1),
        print.machine(share.rotateMm, 1),
        print.machine(share.markMm, 1),
      ]),
      captions: [
        `How far the far end moves for an angle off by ${figure(angleDeg)}°, a rotation by ${figure(rotateDeg)}°, a mark by ${print.machine(markMm, 1)} ${print.word}. All of them by chance: ${print.machine(likelyMm, 1)} ${print.word}.`,
      ],
      isClose: shares.length > 6,
    },
  ];
};

/** The cautions in full, at their step. */
export const cautionBlocks = (findings: readonly FindingResult[]): SheetBlock[] =>
  texts(
    'Cautions',
    cautionsAmong(findings).map(({ text }) => ({ text })),
  );
