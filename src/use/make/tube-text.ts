import type { PartResult } from '../../contract/part.ts';
import type { CopeResult, TubeResult } from '../../contract/tube.ts';
import { figure } from '../../text/figures.ts';
import type { Printed } from '../../text/printed.ts';
import { walkedBackText } from '../../tube/walk.ts';

/** What stands for a bend rule: none says how long a tube is, its bender does. */
export const NO_RULE = 'none';

/** `crate-hoop (tube-bent, left hand): e235 tube, 30 x 2 mm`; of one that is stopped its wall alone. */
export const tubeHeading = ({
  name,
  family,
  hand,
  quantity,
  material,
  tube,
}: PartResult): string => {
  const size =
    tube === undefined
      ? `wall ${figure(material.thicknessMm)} mm`
      : `${figure(tube.diameterMm)} x ${figure(tube.wallMm)} mm`;
  return `${name} (${family}, ${hand} hand${quantity > 1 ? `, ${quantity} off` : ''}): ${material.id} tube, ${size}`;
};

/** What a tube is cut and bent by, a line each step; nothing of a part of sheet. */
export const tubeLines = (part: PartResult, print: Printed): string[] => {
  const { tube, bendSheet } = part;
  if (tube === undefined) return [];
  if (bendSheet === undefined) return copeLines(part, tube, print);
  const { lead, tail } = bendSheet.wasteMm;
  return [
    `  tube   cut ${print.tape(tube.cutLengthMm, 1)} ${print.word} off the bar, ${figure(bendSheet.massKg, 3)} kg${lead + tail > 0 ? `; of it ${print.tape(lead, 1)} at the leading end and ${print.tape(tail, 1)} at the other are cut off afterwards` : ''}`,
    ...bendSheet.steps.map(({ bend, markMm, turnDeg, endForEnd, checkMm }, i) => {
      const { angleDeg, pullToDeg } = tube.bends[bend - 1] as TubeResult['bends'][number];
      const turn =
        (endForEnd ? 'end for end, then ' : '') +
        (Math.abs(turnDeg) < LEAST_TOLD_DEG
          ? 'no turn'
          : `turn ${figure(Math.abs(turnDeg), 1)} deg ${turnDeg > 0 ? 'clockwise' : 'anticlockwise'}`);
      return `  bend   ${bend}: mark at ${print.tape(markMm, 1)}${i === 0 ? '' : `, ${turn}`}, pull to ${figure(pullToDeg, 1)} deg for ${figure(angleDeg, 1)}; end to end then ${print.tape(checkMm, 1)} ${print.word}`;
    }),
    print.words(`  proof  ${walkedBackText(bendSheet.proofMm)}`),
  ];
};

/** Half of what is told to a tenth of a degree. */
const LEAST_TOLD_DEG = 0.05;

/** How a coped tube is cut; the depths stand in its report. */
const copeLines = (
  { cope, otherCope }: PartResult,
  { cutLengthMm }: TubeResult,
  print: Printed,
): string[] => [
  `  tube   cut ${print.tape(cutLengthMm, 1)} ${print.word} off the bar`,
  ...[cope, otherCope].flatMap((end, i) =>
    end === undefined
      ? []
      : [
          `  cope   ${otherCope === undefined ? '' : `end ${i + 1}: `}pattern ${print.tape(end.wrapMm, 1)} round, its straight edge ${print.tape(end.node, 1)} ${print.word} from the node; cut from ${print.tape(least(end), 1)} to ${print.tape(most(end), 1)} from there`,
        ],
  ),
];

const least = ({ curve }: CopeResult): number => Math.min(...curve.map(([, mm]) => mm));
const most = ({ curve }: CopeResult): number => Math.max(...curve.map(([, mm]) => mm));
