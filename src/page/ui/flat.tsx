import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { DrawnHole, HoleWays } from '../core/drawn-questions.ts';
import type { BlankAnswer } from '../core/questions.ts';
import { figureIn, type Row, rowsOf, textOf, withFigure } from '../model/entries.ts';
import { isWhole } from './blank-state.ts';
import { focused, focusInput } from './focus.ts';
import { newVisit, setInput, writtenAt } from './inputs.ts';
import { Pictured } from './pictured.tsx';
import { quick, slow } from './cores.ts';
import { isNarrow, jobText, partAsk } from './state.ts';
import { provedText, sizesText, unit } from './units.ts';

/** Which input drives each size of the picture, and of which blank. */
const drivers = signal<{ readonly of: string; readonly map: Readonly<Record<string, string>> }>({
  of: '',
  map: {},
});

/** Worked out when the whole part has been, for it takes as long as making it a few times. */
const useDrivers = (index: number, at: number, isWhole: boolean): void => {
  const of = `${index} ${at}`;
  useEffect(() => {
    if (!isWhole) return;
    const text = jobText.value;
    void slow
      .ask('drivers', { ...partAsk(index), blank: at }, { key: 'whole' })
      .then((map) => {
        if (map !== undefined && text === jobText.value) drivers.value = { of, map };
      })
      .catch(() => undefined);
  }, [jobText.value, of, isWhole, isNarrow.value, unit.value]);
};

/** A hole that is being dragged. */
interface Grip {
  readonly hole: DrawnHole;
  readonly rows: readonly Row[];
  readonly visit: string;
  readonly written: string;
  ways: HoleWays | null;
}
let grip: Grip | undefined;

/** Holes are dragged in steps of so much, mm; with the shift key in larger ones. */
const SNAP_MM = 1;
const COARSE_MM = 5;

const takeHole = (index: number, at: number, hole: DrawnHole): void => {
  const written = writtenAt(index, hole.input);
  const rows = rowsOf('holes', written);
  const row = rows?.[hole.entry];
  focused.value = hole.input;
  if (rows === undefined || row === undefined) return;
  const [across, along] = [figureIn(row[0] ?? ''), figureIn(row[1] ?? '')];
  if (across === undefined || along === undefined) return;
  const next: Grip = { hole, rows, visit: newVisit(index, hole.input), written, ways: null };
  grip = next;
  const more = [
    movedHole(rows, hole.entry, across + 1, along),
    movedHole(rows, hole.entry, across, along + 1),
  ] as const;
  void quick
    .ask('holeWays', { ...partAsk(index), blank: at, input: hole.input, entry: hole.entry, more })
    .then((ways) => {
      next.ways = ways ?? null;
    })
    .catch(() => undefined);
};

const movedHole = (rows: readonly Row[], at: number, across: number, along: number): string =>
  textOf(
    'holes',
    rows.map((row, i) =>
      i === at
        ? [withFigure(row[0] ?? '', across), withFigure(row[1] ?? '', along), ...row.slice(2)]
        : row,
    ),
  );

/** The two figures by which a hole has moved so far over the picture. */
const solved = (
  { across: [a, b], along: [c, d] }: HoleWays,
  [x, y]: readonly [number, number],
): readonly [number, number] | undefined => {
  const size = a * d - b * c;
  return Math.abs(size) < FLAT ? undefined : [(x * d - y * c) / size, (a * y - b * x) / size];
};

/** Figures that move a hole in one and the same direction do not tell where it is dragged. */
const FLAT = 1e-6;

const moveHole = (index: number, by: readonly [number, number], isCoarse: boolean): void => {
  if (grip?.ways === null || grip === undefined) return;
  const { hole, rows, visit, written, ways } = grip;
  const row = rows[hole.entry];
  const moved = solved(ways, by);
  if (row === undefined || moved === undefined) return;
  const step = isCoarse ? COARSE_MM : SNAP_MM;
  const [across, along] = [0, 1].map((i) => {
    const from = figureIn(row[i] ?? '') ?? 0;
    const to = from + (moved[i] as number);
    return Math.abs(moved[i] as number) < step / 2 ? from : Math.round(to / step) * step;
  }) as [number, number];
  setInput(index, hole.input, movedHole(rows, hole.entry, across, along), visit, written);
};

/** The blank with its sizes: each can be pressed to change what drives it, and holes dragged. */
export const Flat = ({
  blank,
  index,
  at,
}: {
  readonly blank: BlankAnswer;
  readonly index: number;
  readonly at: number;
}) => {
  useDrivers(index, at, isWhole(blank));
  const map = drivers.value.of === `${index} ${at}` ? drivers.value.map : {};
  const { blank: made, flat } = blank;
  const title = `${blank.piece ?? blank.name}, ${blank.hand}`;
  return (
    <div>
      {flat === null ? (
        <p class="empty">Nothing to see while a finding stops the part.</p>
      ) : (
        <Pictured
          picture={flat}
          label={
            made === null
              ? `Blank of ${title}`
              : `Blank of ${title}: ${sizesText([made.widthMm, made.heightMm])}, ${blank.bends.length} folds`
          }
          inputOf={(spot) => map[spot]}
          marked={focused.value}
          isZoomed={isNarrow.value}
          onPress={focusInput}
          onHole={{
            take: (hole) => takeHole(index, at, hole),
            move: (by, isCoarse) => moveHole(index, by, isCoarse),
            drop: () => {
              grip = undefined;
            },
          }}
        />
      )}
      {made !== null && (
        <p class="facts">
          Blank {sizesText([made.widthMm, made.heightMm])}, {blank.sheet}, {made.massKg.toFixed(3)}{' '}
          kg
          {blank.proofMm === null
            ? ''
            : `; the cut file folds to what was asked within ${provedText(blank.proofMm)}`}
          {(flat?.holes.length ?? 0) > 0 && '. Drag a hole to move it'}
          {Object.keys(map).length > 0 && '. Press a size to change it'}
        </p>
      )}
    </div>
  );
};
