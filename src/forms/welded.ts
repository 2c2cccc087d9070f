import type { HemCut } from '../flatten/hem-cut.ts';
import type { SeamCut } from '../flatten/seam-cut.ts';
import { splitPart } from '../flatten/split.ts';
import { AT_HOME, composePoses, type Pose } from '../geometry/pose.ts';
import { type Finding, note } from '../model/finding.ts';
import { figure } from '../text/figures.ts';
import type { Part } from '../model/part.ts';
import type { Standing } from '../model/standing.ts';
import type { CommonValues } from './common.ts';
import type { JointValues } from './joint-inputs.ts';
import { AT, type Blank, blanksIn, named, namedOn } from './named-folds.ts';
import { usualClearance } from './tab-clearance.ts';
import type { Built, Piece } from './template.ts';

type Asked = Pick<
  CommonValues,
  keyof JointValues | 'rule' | 'cornerGapMm' | 'leastSlotMm' | 'thicknessMm' | 'material'
>;

/** Where a blank is cut apart, and how it is joined again. */
const cutsOf = (blank: Blank, asked: Asked): readonly (SeamCut | HemCut)[] => [
  ...named(blank, asked.weldAt).map((fold): SeamCut => ({ fold, way: 'weld' })),
  ...namedOn(blank, asked.lapAt).map(({ fold, on = fold.parent.panel }): SeamCut => ({
    fold: fold.id,
    way: 'lap',
    on,
    landMm: asked.lapWidthMm,
  })),
  ...namedOn(blank, asked.tabAt).map(({ fold, on = fold.child.panel }): SeamCut => ({
    fold: fold.id,
    way: 'tab',
    on,
    clearanceMm: asked.tabClearanceMm,
  })),
  ...named(blank, asked.hemAt).map((fold): HemCut => ({
    fold,
    way: 'hem',
    depthMm: asked.hemDepthMm,
  })),
];

/**
 * What was built with folds slit as `slitAt` names them, and cut apart as `weldAt`, `lapAt`,
 * `tabAt` and `hemAt` do. A blank that is cut apart becomes pieces, each called by the panel that it is folded
 * from.
 */
export function slitAndWelded(built: Built, asked: Asked): Built {
  if (AT.every((input) => asked[input].length === 0)) return built;
  const findings: Finding[] = [];
  const pieces = blanksIn(built).flatMap((blank): readonly Blank[] => {
    const slit = { ...blank, part: slitPart(blank.part, named(blank, asked.slitAt), asked) };
    const cuts = cutsOf(blank, asked);
    if (cuts.length === 0) return [slit];
    const split = splitPart(slit.part, asked.rule, cuts, asked.cornerGapMm);
    if (split.ok)
      return split.pieces.map((part, i) => ({
        ...slit,
        id: nameOf(blank, part),
        part,
        standing: standingOf(blank, split.poses[i] ?? AT_HOME),
      }));
    findings.push(...split.findings);
    return [slit];
  });
  if (asked.tabAt.length > 0 && findings.length === 0) findings.push(clearanceTold(asked));
  const more = findings.length === 0 ? {} : { findings: [...(built.findings ?? []), ...findings] };
  const [only] = pieces;
  if (only !== undefined && only.id === null && pieces.length === 1)
    return { ...built, ...more, part: only.part };
  const { part: _, ...rest } = built;
  return pieces.length === 0
    ? built
    : { ...rest, ...more, pieces: joinedAnew(blanksIn(built), withOwnNames(pieces)) };
}

/** The clearance that tabs have, where it was not asked for with its reason. */
const clearanceTold = (asked: Asked): Finding => {
  const usual = usualClearance(asked);
  const { tabClearanceMm: mm } = asked;
  return note(
    'tab-clearance',
    `Tabs have ${figure(mm)} mm on each side in their slots${mm === usual.mm ? `: ${usual.because}` : ''}. Cut one and try it before the rest.`,
  );
};

/**
 * The row of slots along a fold that is bent by hand and welded up: as of a plate that says nothing
 * else.
 */
const slitPart = (
  part: Part,
  slit: readonly string[],
  { leastSlotMm, thicknessMm }: Asked,
): Part =>
  slit.length === 0
    ? part
    : {
        ...part,
        folds: part.folds.map((fold) =>
          slit.includes(fold.id)
            ? {
                ...fold,
                slots: {
                  longestMm: SLOT_MM,
                  landMm: SLOT_LANDS * thicknessMm,
                  widthMm: leastSlotMm,
                },
              }
            : fold,
        ),
      };

/** Length of the slots, and of the lands in thicknesses, where nothing else is said. */
export const SLOT_MM = 50;
export const SLOT_LANDS = 2;

/** Where a piece stands in the whole: where its panels stood on the blank that it was cut from. */
const standingOf = ({ standing }: Blank, pose: Pose): Standing => ({
  ...standing,
  poses: (standing?.poses ?? [AT_HOME]).map((whole) => composePoses(whole, pose)),
});

const nameOf = ({ id }: Blank, part: Part): string => {
  const own = part.root
    .toLowerCase()
    .replace(/[^a-z\d]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return [...(id === null ? [] : [id]), own === '' ? 'piece' : own].join('-');
};

/**
 * The pieces with what each is welded to by the names that there are now: pieces of one blank are
 * welded to each other and to whatever the blank was.
 */
const joinedAnew = (blanks: readonly Blank[], pieces: readonly Piece[]): Piece[] => {
  const from = new Map(
    blanks.map(({ id, part }) => {
      const panels = new Set(part.panels.map((panel) => panel.id));
      const own = pieces.filter(
        (piece) =>
          (id === null || piece.id === id || piece.id.startsWith(`${id}-`)) &&
          // A flange that was added for a lap was on no blank.
          piece.part.panels.some((panel) => panels.has(panel.id)),
      );
      return [id ?? '', own.map((piece) => piece.id)] as const;
    }),
  );
  return pieces.map((piece) => {
    const { standing } = piece;
    if (standing?.weldedTo === undefined) return piece;
    const siblings = [...from.values()].find((own) => own.includes(piece.id)) ?? [];
    const others = standing.weldedTo.flatMap((id) => from.get(id) ?? [id]);
    const weldedTo = [...new Set([...siblings, ...others])].filter((id) => id !== piece.id);
    return { ...piece, standing: { ...standing, weldedTo } };
  });
};

const withOwnNames = (pieces: readonly Blank[]): Piece[] => {
  const taken = new Set<string>();
  return pieces.map((piece) => {
    const id = piece.id ?? 'piece';
    let name = id;
    for (let n = 2; taken.has(name); n++) name = `${id}-${n}`;
    taken.add(name);
    return { ...piece, id: name };
  });
};
