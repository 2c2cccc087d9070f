import { splitPart } from '../flatten/split.ts';
import { AT_HOME, composePoses, type Pose } from '../geometry/pose.ts';
import type { Finding } from '../model/finding.ts';
import type { Fold, Part } from '../model/part.ts';
import type { Standing } from '../model/standing.ts';
import { nearest } from '../text/nearest.ts';
import { shown } from './given.ts';
import type { CommonValues } from './common.ts';
import type { InputProblem } from './problem.ts';
import type { Built, Piece } from './template.ts';

type Asked = Pick<
  CommonValues,
  'weldAt' | 'slitAt' | 'rule' | 'cornerGapMm' | 'leastSlotMm' | 'thicknessMm'
>;

/** A blank of a family before it is cut apart; the only one has no name. */
interface Blank extends Omit<Piece, 'id'> {
  readonly id: string | null;
}

const blanksIn = ({ part, pieces }: Built): readonly Blank[] =>
  pieces ?? (part === undefined ? [] : [{ id: null, part }]);

/** Names by which a fold of a blank may be given: `A`, and of several blanks `end-left A` too. */
const namesOf = ({ id: blank }: Blank, { id }: Fold): readonly string[] =>
  blank === null ? [id] : [id, `${blank} ${id}`];

/** Folds of a blank that are among those named. */
const named = (blank: Blank, names: readonly string[]): readonly string[] =>
  blank.part.folds
    .filter((fold) => namesOf(blank, fold).some((name) => names.includes(name)))
    .map(({ id }) => id);

/**
 * What was built with the folds slit and welded that `slitAt` and `weldAt` name. A blank that is
 * welded at a fold becomes pieces, each called by the panel that it is folded from.
 */
export function slitAndWelded(built: Built, asked: Asked): Built {
  if (asked.weldAt.length === 0 && asked.slitAt.length === 0) return built;
  const findings: Finding[] = [];
  const pieces = blanksIn(built).flatMap((blank): readonly Blank[] => {
    const slit = { ...blank, part: slitPart(blank.part, named(blank, asked.slitAt), asked) };
    const cut = named(blank, asked.weldAt);
    if (cut.length === 0) return [slit];
    const split = splitPart(slit.part, asked.rule, cut, asked.cornerGapMm);
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
  const more = findings.length === 0 ? {} : { findings: [...(built.findings ?? []), ...findings] };
  const [only] = pieces;
  if (only !== undefined && only.id === null && pieces.length === 1)
    return { ...built, ...more, part: only.part };
  const { part: _, ...rest } = built;
  return pieces.length === 0
    ? built
    : { ...rest, ...more, pieces: joinedAnew(blanksIn(built), withOwnNames(pieces)) };
}

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
          piece.part.panels.every((panel) => panels.has(panel.id)),
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

/** Names in `weldAt` and `slitAt` that no fold has, and folds that are in both. */
export function foldNameProblems(built: Built, { weldAt, slitAt }: Asked): readonly InputProblem[] {
  const blanks = blanksIn(built);
  if (blanks.length === 0) return [];
  const known = blanks.flatMap((blank) => blank.part.folds.flatMap((f) => namesOf(blank, f)));
  const unknown = Object.entries({ weldAt, slitAt }).flatMap(([input, names]) =>
    names
      .filter((name) => !known.includes(name))
      .map((name): InputProblem => {
        const meant = nearest(name, known);
        return {
          input,
          given: shown(name),
          allowed:
            known.length === 0
              ? 'nothing: the part has no folds'
              : `folds of the part: ${[...new Set(known)].join(', ')}`,
          ...(meant !== undefined && { mend: `did you mean ${meant}?` }),
        };
      }),
  );
  const both = blanks.flatMap((blank) =>
    named(blank, weldAt).filter((id) => named(blank, slitAt).includes(id)),
  );
  return unknown.length > 0 || both.length === 0
    ? unknown
    : [
        {
          input: 'slitAt',
          given: both.join(', '),
          allowed: 'folds that are not in weldAt: a fold is either slit or welded',
        },
      ];
}
