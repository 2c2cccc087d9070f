import { cautionsAmong } from '../../data/cautions.ts';
import { printedFinding } from '../../model/printed-finding.ts';
import { figure } from '../../text/figures.ts';
import { printedIn, type Printed } from '../../text/printed.ts';
import type { CopedTube } from '../../tube/cope/coped-part.ts';
import { placeWord, seatText, zeroText } from '../../tube/cope/seat-text.ts';
import { copedMesh } from '../../tube/cope/coped-mesh.ts';
import type { Picture } from '../../model/picture.ts';
import { cameraAt } from '../draw/camera.ts';
import { foldedView } from '../draw/folded-view.ts';
import { contentMm, type Fact, GUTTER_MM, type SheetContent, texts } from '../sheet/content.ts';
import { printedBlock } from '../sheet/printed-block.ts';
import { findingsOf } from '../sheet/sheet-findings.ts';
import { cautionNotice, decisionNotice } from '../sheet/sheet-head.ts';
import { reportTables } from '../sheet/tables.ts';
import { cautionBlocks } from './bend-tables.ts';
import { type TubeSheetRequest, tubeHead } from './tube-head.ts';
import { patternPicture } from './pattern-picture.ts';

/** A coped tube and what its paper tells beside it. */
export interface CopeSheetRequest extends TubeSheetRequest {
  readonly tube: CopedTube;
}

const MOST_HIGH_MM = 130;
const VIEW_HIGH_MM = 70;
/** Chords of the view, as a share of the tube's diameter. */
const VIEW_SHARE = 1 / 100;

/** The sheet of a coped tube, for paper and screen: it can be marked and cut from it by hand too. */
export function copeSheetContent(request: CopeSheetRequest): SheetContent {
  const { tube, paper, units, report, links } = request;
  const print = printedIn(units);
  const findings = request.result.findings.map((f) => printedFinding(f, print));
  const picture = patternPicture(tube.patterns(request.result.name), {
    widthMm: contentMm(paper),
    heightMm: MOST_HIGH_MM,
  });
  return {
    paper,
    links,
    head: tubeHead(request),
    blocks: [
      ...cautionNotice(cautionsAmong(findings)),
      ...decisionNotice(findings),
      {
        kind: 'overview' as const,
        picture: copedView(tube, {
          widthMm: (contentMm(paper) - GUTTER_MM) * 0.62,
          heightMm: VIEW_HIGH_MM,
        }),
        facts: factsOf(tube, print),
      },
      {
        kind: 'picture' as const,
        title: 'The pattern, printed side out',
        picture,
        captions: [
          `Not to scale: the card has it at true size. 0 degrees lies on the ${zeroText(tube.asked.seat)}, degrees run counter-clockwise for whoever looks down the tube at the joint; the tube keeps what lies above the curve.`,
        ],
      },
      ...(report === undefined ? [] : reportTables(report, print)),
      ...texts('To be decided before it is cut', findingsOf(findings, ['warn'])),
      ...cautionBlocks(findings),
      ...texts('Notes', findingsOf(findings, ['note'])),
    ].map((block) => printedBlock(block, print)),
  };
}

/** From beneath and beside the acute side, so that what is cut is seen. */
const FROM = [65, -28] as const;

/** The finished tube, its first end towards whoever looks at it. */
export const copedView = (
  tube: CopedTube,
  size: { readonly widthMm: number; readonly heightMm: number },
): Picture =>
  foldedView(copedMesh(tube, 'tube', tube.diameterMm * VIEW_SHARE), {
    ...size,
    camera: cameraAt(...FROM),
  });

const factsOf = (tube: CopedTube, print: Printed): Fact[] => [
  {
    name: `Cut off the bar, ${print.word}`,
    value: print.tape(tube.cutLengthMm, 1),
    isBig: true,
  },
  ...tube.ends.map(({ cope }, i) => ({
    name: tube.ends.length > 1 ? `End ${i + 1}` : 'End',
    value: seatText(cope.seat),
  })),
  {
    name: `From ${placeWord(tube.asked.seat)} to ${tube.asked.other === undefined ? 'the square end' : placeWord(tube.asked.other.seat)}, on the axis, ${print.word}`,
    value: print.tape(tube.asked.lengthMm, 1),
    isBig: true,
  },
  ...(tube.asked.other === undefined || tube.asked.other.seat.kind === 'mitre'
    ? []
    : [
        {
          name: 'Clocking of end 2',
          value: `${figure(tube.asked.other.clockDeg, 1)} deg`,
        },
      ]),
  { name: 'Mass', value: `${figure(tube.massKg, 3)} kg` },
];
