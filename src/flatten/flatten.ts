import { figure } from '../text/figures.ts';
import { loopExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { holeName } from '../model/hole-names.ts';
import {
  compose,
  moveLoop,
  movePoint,
  moveVector,
  type Motion2,
  shift,
} from '../geometry/motion2.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { tidyLoop } from '../geometry/tidy-loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { BendRule } from '../model/bend-rule.ts';
import { type Finding, hasStop } from '../model/finding.ts';
import { type FlatFormed, movedFormed } from '../model/formed.ts';
import type {
  FlatBend,
  FlatCutout,
  FlatPanel,
  FlatPattern,
  FlatVertex,
  Origin,
} from '../model/flat.ts';
import type { Cutout, Part } from '../model/part.ts';
import { carveAll } from './carve-all.ts';
import { type Draft, jointOf, startDraft } from './draft.ts';
import { partFlaws } from './part-flaws.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import { cutReliefs } from './reliefs.ts';
import { trimCorners } from './trim.ts';
import { slotsAlong } from './slots.ts';
import { type Strip, walkOutline } from './walk.ts';

/**
 * The flat pattern of a folded part, by the given bend rule (a fold's own rule goes before it).
 *
 * The steps are: trim neighbouring flanges at their finished angles, move every folded edge in to
 * its tangent line with reliefs where a fold ends in metal, walk once round the tree of panels, and
 * cut the corner reliefs. Obstacles come back as findings; with a `stop` among them the outline is
 * only as far as the work got. A part that is not sound, such as one with a fold to a panel that
 * does not exist, gives findings as well.
 */
export const flatten = (part: Part, rule: BendRule): FlatPattern => {
  const findings = partFlaws(part);
  return findings.length > 0 ? unfinished({ part, findings }) : flattenSound(part, rule);
};

const known = new WeakMap<Part, { readonly rule: BendRule; readonly flat: FlatPattern }>();

/**
 * The same for a part that `partFlaws` has already found to be without flaws. It is remembered: what a
 * part weighs is known by its blank as well.
 */
export const flattenSound = (part: Part, rule: BendRule): FlatPattern => {
  const before = known.get(part);
  if (before?.rule === rule) return before.flat;
  const flat = flattened(part, rule);
  known.set(part, { rule, flat });
  return flat;
};

const flattened = (part: Part, rule: BendRule): FlatPattern => {
  const draft = startDraft(part, rule);
  trimCorners(draft);
  if (!hasStop(draft.findings)) carveAll(draft);
  if (hasStop(draft.findings)) return unfinished(draft);
  const walk = walkOutline(draft);
  const { outline, strips } = cutReliefs(draft, walk);
  if (hasStop(draft.findings)) return unfinished(draft);
  const tidy = tidyLoop(outline);
  const box = loopExtents(tidy) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const home = shift(-box.minX, -box.minY);
  const placed = moveLoop(home, tidy);
  draft.findings.push(...overlapFindings(part, placed));
  const placements = new Map([...walk.placements].map(([id, m]) => [id, compose(home, m)]));
  const bends = part.folds.map((f) => flatBend(draft, strips.get(f.id) as Strip, home));
  const holes = part.panels
    .flatMap((p) => p.cutouts.map((c) => placeCutout(p.id, c, placements.get(p.id) as Motion2)))
    .map((hole, i): FlatCutout => ({ ...hole, name: holeName(i) }));
  const cutouts = [...holes, ...slotRows(draft, bends)];
  return {
    name: part.name,
    thicknessMm: part.thicknessMm,
    outline: placed,
    cutouts,
    bends,
    panels: part.panels.map((p) => flatPanel(draft, p.id, placements.get(p.id) as Motion2)),
    ...rollMarks(part, placements),
    ...formedParts(part, placements),
    widthMm: box.maxX - box.minX,
    heightMm: box.maxY - box.minY,
    areaMm2: signedArea(placed) - cutouts.reduce((sum, c) => sum + cutoutArea(c), 0),
    findings: draft.findings,
  };
};

const rollMarks = (
  { rolled }: Part,
  placements: ReadonlyMap<string, Motion2>,
): Pick<FlatPattern, 'rollMarks' | 'rollSizes'> => {
  const placement = rolled && placements.get(rolled.panel);
  if (rolled === undefined || placement === undefined) return {};
  const placed = (p: Vec2): Vec2 => movePoint(placement, p);
  return {
    rollMarks: rolled.marks.map((m) => ({ ...m, from: placed(m.from), to: placed(m.to) })),
    rollSizes: rolled.sizes,
  };
};

const formedParts = (
  { panels }: Part,
  placements: ReadonlyMap<string, Motion2>,
): Pick<FlatPattern, 'formed'> => {
  const formed = panels.flatMap(({ id, formed: own = [] }) =>
    own.map((one): FlatFormed => ({
      ...movedFormed(one, (p) => movePoint(placements.get(id) as Motion2, p)),
      panel: id,
    })),
  );
  return formed.length > 0 ? { formed } : {};
};

/** The result for a part with a `stop`: its findings, and nothing to cut. */
const unfinished = ({ part, findings }: Pick<Draft, 'part' | 'findings'>): FlatPattern => ({
  name: part.name,
  thicknessMm: part.thicknessMm,
  outline: [],
  cutouts: [],
  bends: [],
  panels: [],
  widthMm: 0,
  heightMm: 0,
  areaMm2: 0,
  findings,
});

const cutoutArea = (c: FlatCutout): number =>
  c.kind === 'round' ? (Math.PI * c.diameterMm * c.diameterMm) / 4 : Math.abs(signedArea(c.loop));

const placeCutout = (panel: string, c: Cutout, m: Motion2): FlatCutout => ({
  ...c,
  panel,
  ...(c.otherWay !== undefined && { otherWay: movePoint(m, c.otherWay) }),
  ...(c.figures !== undefined && {
    figures: c.figures.map((f) => ({ ...f, towards: moveVector(m, f.towards) })),
  }),
  ...(c.kind === 'round'
    ? { kind: c.kind, centre: movePoint(m, c.centre), diameterMm: c.diameterMm }
    : { kind: c.kind, loop: moveLoop(m, c.loop) }),
});

/** The slots of all folds that have some; a row without enough room gives a finding. */
const slotRows = ({ part, findings }: Draft, bends: readonly FlatBend[]): FlatCutout[] =>
  part.folds.flatMap(({ id, slots }, i) => {
    const row =
      slots === undefined ? [] : slotsAlong(bends[i] as FlatBend, slots, foldName(part, id));
    if (!('severity' in row)) return row;
    findings.push(row);
    return [];
  });

const flatBend = (draft: Draft, strip: Strip, home: Motion2): FlatBend => {
  const { fold, figures } = jointOf(draft, strip.fold);
  const move = ([p, q]: Strip['centreLine']) => [movePoint(home, p), movePoint(home, q)] as const;
  return {
    id: fold.id,
    parent: fold.parent.panel,
    child: fold.child.panel,
    angleDeg: fold.angleDeg,
    direction: fold.direction,
    insideRadiusMm: fold.insideRadiusMm,
    ...figures,
    ...(fold.teardropMm !== undefined && { teardropMm: fold.teardropMm }),
    ...(fold.midSurface === true && { midSurface: true }),
    parentTangent: move(strip.parentTangent),
    childTangent: move(strip.childTangent),
    centreLine: move(strip.centreLine),
  };
};

const flatPanel = (draft: Draft, id: string, placement: Motion2): FlatPanel => {
  const region = tidyLoop(
    (draft.panels.get(id)?.loop ?? []).map(({ x, y, bulge }) => ({ x, y, bulge })),
  );
  return { id, placement, region, areaMm2: signedArea(region) };
};

/**
 * The blank must not lie on itself; a part may be sound when folded and still overlap in the flat.
 */
const overlapFindings = (part: Part, outline: Loop<FlatVertex>): Finding[] => {
  const crossing = selfCrossing(outline);
  if (crossing === undefined) return [];
  const [first, second] = [crossing.first, crossing.second].map(
    (i) => (outline[i] as FlatVertex).origin,
  ) as [Origin, Origin];
  const where = `${figure(crossing.at[0])}, ${figure(crossing.at[1])}`;
  const found = foundOn(
    'flat-overlap',
    {
      panels: [first, second].flatMap((origin) => panelsOf(part, origin)),
      folds: [first, second].flatMap((origin) => (origin.kind === 'strip' ? [origin.fold] : [])),
    },
    `In the flat, ${originName(part, first)} runs into ${originName(part, second)} near ${where}`,
    'make one of the two shorter or narrower',
    'cut one off as a piece of its own with a weld seam where it is folded on',
  );
  return [{ ...found, at: crossing.at }];
};

const originName = (part: Part, origin: Origin): string =>
  origin.kind === 'strip' ? foldName(part, origin.fold) : origin.panel;

const panelsOf = ({ folds }: Part, origin: Origin): string[] =>
  origin.kind === 'strip'
    ? folds
        .filter(({ id }) => id === origin.fold)
        .flatMap(({ parent, child }) => [parent.panel, child.panel])
    : [origin.panel];
