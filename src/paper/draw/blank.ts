import { figure } from '../../text/figures.ts';
import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import { distance, middle, type Vec2 } from '../../geometry/vec2.ts';
import type { Drawing, DrawingItem } from '../../model/drawing.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import { formMarks } from '../../model/formed.ts';
import { crossAt } from './as-cut.ts';
import type { CutLines } from './cut-lines.ts';
import { foldNote } from './fold-note.ts';
import { holeNotes } from './hole-note.ts';
import { noteBlock } from './note-block.ts';
import { BlankTextRoom } from './blank-text-room.ts';

/** What is written on the blank beside its folds. */
export interface BlankNotes {
  /** Name of the part, hand included. */
  readonly title: string;
  /** Lines under the title. */
  readonly lines: readonly string[];
  /** By which the part's files are known again. */
  readonly mark: string;
  /** Comments in the files, kept when the notes are left out. */
  readonly remarks: readonly string[];
  /** Whether the fold lines are drawn. */
  readonly foldLines?: boolean;
  /** Bends that are bumped, with the lines of their hits, which are marked where fold lines are drawn. */
  readonly bumps?: readonly BumpMarks[];
}

/** The hits of a bend that is bumped. */
export interface BumpMarks {
  readonly bend: Pick<FlatBend, 'id' | 'centreLine'>;
  readonly lines: readonly (readonly [Vec2, Vec2])[];
}

/**
 * The flat pattern as a drawing: what is cut, where it is folded, and what the folder must know.
 * Texts lie on the metal, clear of the holes, where there is room; they read from below or from the
 * right and are never mirrored. `lines` are what is cut where that is not the edge of the metal
 * itself, `marks` the middles of holes that are marked instead.
 */
export function drawBlank(
  flat: FlatPattern,
  notes: BlankNotes,
  lines: CutLines = flat,
  marks: readonly Vec2[] = [],
): Drawing {
  const cut: DrawingItem[] = [{ kind: 'loop', role: 'outline', loop: lines.outline }];
  for (const hole of lines.cutouts) {
    if (hole.kind === 'round')
      cut.push({ kind: 'circle', role: 'hole', centre: hole.centre, radius: hole.diameterMm / 2 });
    else cut.push({ kind: 'loop', role: 'hole', loop: hole.loop });
  }
  const folds = (notes.foldLines === false ? [] : flat.bends).map((bend): DrawingItem => {
    const [from, to] = bend.centreLine;
    return { kind: 'line', role: bend.direction === 'up' ? 'fold-up' : 'fold-down', from, to };
  });
  const { bumps = [] } = notes;
  const hits = notes.foldLines === false ? [] : bumps.flatMap(besideFold);
  const forms = (notes.foldLines === false ? [] : (flat.formed ?? [])).flatMap((one) =>
    one.marks.map(({ from, to }) => [from, to] as const),
  );
  const marked = [...marks.flatMap(crossAt), ...hits, ...forms].map(([from, to]): DrawingItem => ({
    kind: 'line',
    role: 'mark',
    from,
    to,
  }));
  const room = new BlankTextRoom(flat);
  const texts = flat.bends.map((bend) => {
    const hitsOf = bumps.find((b) => b.bend.id === bend.id)?.lines.length;
    const other = { ...bend, direction: OTHER_WAY[bend.direction] };
    return foldNote(room, bend, foldText(bend, hitsOf), foldText(other, hitsOf));
  });
  // They are for the rolls, and nothing to fold or to cut at.
  const rolls = (flat.rollMarks ?? []).map(({ from, to }): DrawingItem => ({
    kind: 'line',
    role: 'note',
    from,
    to,
  }));
  const markTexts = formMarks(flat).flatMap(({ from, to, called, turnedOver = called ?? '' }) =>
    called === undefined ? [] : [foldNote(room, { centreLine: [from, to] }, called, turnedOver)],
  );
  const { title, mark, remarks } = notes;
  return {
    title,
    mark,
    remarks,
    items: [
      ...cut,
      ...folds,
      ...marked,
      ...rolls,
      ...texts,
      ...markTexts,
      ...holeNotes(room, flat),
      ...noteBlock(room, flat, [title, ...notes.lines]),
    ],
  };
}

/** What a fold is to whoever looks at the other face. */
const OTHER_WAY = { up: 'down', down: 'up' } as const;

/** `A 90 UP R3`; `A 90 UP R40 18 HITS` where it is bumped. */
const foldText = (bend: FlatBend, hits?: number): string =>
  `${bend.id} ${figure(bend.angleDeg)} ${bend.direction.toUpperCase()} R${figure(bend.insideRadiusMm)}${hits === undefined ? '' : ` ${hits} HITS`}`;

/** The lines of the hits but for the one in the middle, where the line of the fold is drawn. */
const besideFold = ({ bend, lines }: BumpMarks): BumpMarks['lines'] => {
  const at = middle(...bend.centreLine);
  return lines.filter((line) => distance(middle(...line), at) > SAME_LENGTH_MM);
};
