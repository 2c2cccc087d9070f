import { ruleFindings } from '../bending/rule-findings.ts';
import { foldPose } from '../fold/joint.ts';
import { AT_HOME, composePoses, type Pose } from '../geometry/pose.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import type { BendRule } from '../model/bend-rule.ts';
import { type Finding, hasStop } from '../model/finding.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import type { Fold, Part } from '../model/part.ts';
import { carve } from './carve.ts';
import { shortened, squareOff } from './cut-panel.ts';
import {
  type Draft,
  type DraftPanel,
  foldPieceOf,
  foldsOn,
  jointFrom,
  jointOf,
  panelOf,
  startDraft,
} from './draft.ts';
import { partFlaws } from './part-flaws.ts';
import { type HemCut, hemsApart } from './hem-cut.ts';
import { canBeJoined, type SeamCut, setBackMm } from './seam-cut.ts';
import { joinedAt } from './seam-joints.ts';
import { piecesOf } from './split-pieces.ts';
import { trimAtSeams } from './trim.ts';

/**
 * A part that is joined at some of its folds in place of being bent there: its pieces, each a part
 * of its own, with the place of its root on the folded whole, or what prevents that.
 */
export type Split =
  | { readonly ok: true; readonly pieces: readonly Part[]; readonly poses: readonly Pose[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/**
 * Cuts a part apart at some of its folds. Put together again, its panels stand exactly where they
 * stand on the folded part: flanges that end beside a seam are trimmed as for the whole, and at each
 * cut the panels end, or get a flange or tabs, as the way says in which they are joined again.
 */
export function splitPart(
  given: Part,
  rule: BendRule,
  asked: readonly (SeamCut | HemCut)[],
  gapMm: number,
): Split {
  if (partFlaws(given).length > 0 || hasStop(ruleFindings(rule, given)))
    return { ok: true, pieces: [given], poses: [AT_HOME] };
  const seams = asked.filter((cut) => cut.way !== 'hem');
  const hems = hemsApart(
    given,
    asked.filter((cut) => cut.way === 'hem'),
  );
  if (hasStop(hems.findings)) return { ok: false, findings: hems.findings };
  return splitAt(hems.part, rule, [...seams, ...hems.cuts], { gapMm, checked: seams });
}

function splitAt(
  part: Part,
  rule: BendRule,
  cuts: readonly SeamCut[],
  { gapMm, checked }: { readonly gapMm: number; readonly checked: readonly SeamCut[] },
): Split {
  const foldOf = (cut: SeamCut): Fold => part.folds.find(({ id }) => id === cut.fold) as Fold;
  const wrong = checked.filter((cut) => !canBeJoined(foldOf(cut), cut.way));
  if (wrong.length > 0)
    return { ok: false, findings: wrong.map((cut) => noSeam(part, foldOf(cut), cut)) };
  const draft = startDraft(part, rule);
  trimAtSeams(draft, (fold) => cuts.some((cut) => cut.fold === fold));
  if (!hasStop(draft.findings)) for (const cut of cuts) cutAt(draft, cut, gapMm);
  if (hasStop(draft.findings)) return { ok: false, findings: draft.findings };
  const pieces = joinedAt(draft, cuts, piecesOf(draft, new Set(cuts.map(({ fold }) => fold))));
  if (hasStop(draft.findings)) return { ok: false, findings: draft.findings };
  return { ok: true, pieces, poses: pieces.map(({ root }) => poseOf(draft, root)) };
}

/** Where a panel stands on the folded whole, seen from the root of that. */
const poseOf = (draft: Draft, panel: string): Pose => {
  const link = draft.part.folds.find(({ child }) => child.panel === panel);
  return link === undefined
    ? AT_HOME
    : composePoses(poseOf(draft, link.parent.panel), foldPose(jointOf(draft, link.id)));
};

const SEAMS = {
  weld: { rule: 'no-weld-seam', as: 'no seam can take its place', input: 'weldAt' },
  lap: { rule: 'no-lap-seam', as: 'no flange can lap it', input: 'lapAt' },
  tab: { rule: 'no-tab-seam', as: 'no tabs hold it square', input: 'tabAt' },
} as const;

const noSeam = (part: Part, { id, parent, child }: Fold, { way }: SeamCut): Finding =>
  foundOn(
    SEAMS[way].rule,
    { panels: [parent.panel, child.panel], folds: [id] },
    `${foldName(part, id)} is a hem, one of the slight bends of a transition or too far from square, and ${SEAMS[way].as}`,
    `leave it out of ${SEAMS[way].input}`,
  );

function cutAt(draft: Draft, cut: SeamCut, gapMm: number): void {
  const joint = jointOf(draft, cut.fold);
  for (const { panel } of [joint.fold.parent, joint.fold.child])
    cutBack(draft, panelOf(draft, panel), cut, setBackMm(joint, cut, panel, gapMm));
}

/** Moves the edge in, and with it the ends of the folds beside it. */
function cutBack(draft: Draft, target: DraftPanel, cut: SeamCut, backMm: number): void {
  const { fold, way } = cut;
  const { id } = target.panel;
  const before = target.loop;
  const at = foldPieceOf(before, fold);
  if (at < 0 || backMm < NOISE_MM) return;
  const { thicknessMm, relief } = draft.part;
  const moved = carve(before, at, {
    fold,
    panel: id,
    setbackMm: backMm,
    notch: { shape: 'square', widthMm: relief.leastSlotMm, depthMm: 0, leastTabMm: thicknessMm },
    setbackOf: () => backMm,
  });
  if ('kind' in moved) {
    draft.findings.push(
      foundOn(
        SEAMS[way].rule,
        { panels: [id], folds: [fold] },
        `${id} has no room for a seam in place of ${foldName(draft.part, fold)}`,
        'make it longer, or take another fold',
      ),
    );
    return;
  }
  target.loop = moved;
  for (const other of foldsOn(draft, id)) {
    if (other === fold || jointOf(draft, other).fold.parent.panel !== id) continue;
    for (const less of shortened(jointFrom(draft, other, id), before, moved))
      squareOff(draft, less);
  }
}
