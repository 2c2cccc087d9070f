import { cautionsAmong } from '../../data/cautions.ts';
import type { Picture } from '../../model/picture.ts';
import { printedFinding } from '../../model/printed-finding.ts';
import { includedDeg } from '../../text/angles.ts';
import { figure } from '../../text/figures.ts';
import { type Printed, printedIn } from '../../text/printed.ts';
import type { BentTube } from '../../tube/bent-tube.ts';
import { tubeMesh } from '../../tube/tube-mesh.ts';
import { foldedView } from '../draw/folded-view.ts';
import { contentMm, type Fact, GUTTER_MM, type SheetContent, texts } from '../sheet/content.ts';
import { printedBlock } from '../sheet/printed-block.ts';
import { findingsOf } from '../sheet/sheet-findings.ts';
import { cautionNotice, decisionNotice } from '../sheet/sheet-head.ts';
import { reportTables } from '../sheet/tables.ts';
import { walkedBack } from './bend-cards.ts';
import { alongTable, cautionBlocks, errorTable, stepTable } from './bend-tables.ts';
import { type TubeSheetRequest, tubeHead } from './tube-head.ts';
import { markedTube } from './marked-tube.ts';

/** A tube and what its paper tells beside it. */
export interface BendSheetRequest extends TubeSheetRequest {
  readonly tube: BentTube;
}

/** The bend sheet, for paper and screen: the tube can be marked, cut and bent from it without a sum. */
export function bendSheetContent(request: BendSheetRequest): SheetContent {
  const { tube, paper, units, report, links } = request;
  const print = printedIn(units);
  const findings = request.result.findings.map((f) => printedFinding(f, print));
  const wide = contentMm(paper);
  const viewMm = { widthMm: (wide - GUTTER_MM) * 0.62, heightMm: 88 };
  return {
    paper,
    links,
    head: tubeHead(request),
    blocks: [
      ...cautionNotice(cautionsAmong(findings)),
      ...decisionNotice(findings),
      {
        kind: 'overview' as const,
        picture: tubeView(tube, viewMm, print),
        facts: factsOf(tube, print),
      },
      {
        kind: 'picture' as const,
        title: 'Marks on the straight tube',
        picture: markedTube(tube, wide, print),
        captions: [
          `Bend and distance from the leading end, ${print.word}: lay the tape once and mark all of them. Lengths are to scale, the tube's diameter is not. Grey is bent${tube.sheet.waste.leadMm + tube.sheet.waste.tailMm > 0 ? '; beyond the broken lines is cut off when it is bent' : ''}.`,
        ],
      },
      ...stepTable(tube, print),
      ...texts('To be decided before it is cut', findingsOf(findings, ['warn'])),
      alongTable(tube, print),
      ...errorTable(tube, print),
      ...cautionBlocks(findings),
      ...texts('Notes', findingsOf(findings, ['note'])),
      ...(report === undefined ? [] : reportTables(report, print)),
    ].map((block) => printedBlock(block, print)),
  };
}

/** More rings than these hide the tube. */
const MOST_RINGS = 16;
/** Chords of the view, as a share of the tube's diameter. */
const VIEW_SHARE = 1 / 60;

/** The finished tube with the reading of the angle finder at each of its bends. */
export const tubeView = (
  tube: BentTube,
  size: { readonly widthMm: number; readonly heightMm: number },
  print: Printed,
  isBare = false,
): Picture => {
  const { sheet, diameterMm } = tube;
  const mesh = tubeMesh(tube, 'tube', diameterMm * VIEW_SHARE);
  if (isBare || sheet.bends.length > MOST_RINGS) return foldedView(mesh, size);
  const sizes = [0, 1, 2].map((k) => {
    const all = mesh.points.map((p) => p[k] as number);
    const [low, high] = [
      all.reduce((a, b) => Math.min(a, b)),
      all.reduce((a, b) => Math.max(a, b)),
    ];
    return print.tape(high - low, 1);
  }) as [string, string, string];
  const labels = new Map(
    sheet.bends.map(({ angleDeg }, i) => [
      String(i + 1),
      `${i + 1}: ${figure(includedDeg(angleDeg), 1)}°`,
    ]),
  );
  return foldedView(mesh, { ...size, labels, sizes });
};

const factsOf = (tube: BentTube, print: Printed): Fact[] => {
  const { sheet, asked, cutLengthMm, massKg } = tube;
  const { bender, formerMm, springback, isMeasured } = asked.bending;
  const { leadMm, tailMm } = sheet.waste;
  return [
    { name: `Cut off the bar, ${print.word}`, value: print.tape(cutLengthMm, 1), isBig: true },
    ...(leadMm + tailMm > 0
      ? [
          {
            name: `Of it cut off afterwards at the leading end, and at the tail, ${print.word}`,
            value: `${print.tape(leadMm, 1)}, ${print.tape(tailMm, 1)}`,
            isBig: true,
          },
        ]
      : []),
    {
      name: `Former, centre-line radius, ${print.word}`,
      value: print.machine(formerMm, 1),
      isBig: true,
    },
    { name: 'Bender', value: bender ?? 'none in the shop file' },
    {
      name: `Springback, ${isMeasured ? 'measured' : 'a first guess'}`,
      value: `${figure(springback.fixedDeg, 1)}° and ${figure(100 * springback.share, 1)} % of the angle`,
    },
    { name: 'Mass', value: `${figure(massKg, 3)} kg` },
    {
      name: 'Proof: the sheet bent figure by figure',
      value: walkedBack(tube, print),
    },
  ];
};
