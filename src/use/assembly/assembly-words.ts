import { capital } from '../../text/capital.ts';
import { grouped } from '../../text/grouped.ts';
import { printedIn } from '../../text/printed.ts';
import type { BoltedHoles } from '../../assembly/bolted-holes.ts';
import type { Assembly } from '../../assembly/assembly.ts';
import type { Side, WeldAccess } from '../../assembly/weld-access.ts';
import type { JointKind } from '../../assembly/joint-kind.ts';
import type { Weld } from '../../assembly/weld-seams.ts';
import { figure } from '../../text/figures.ts';

/** A weld with the sides from which it is reached. */
export interface ReachedWeld extends Weld {
  readonly access: WeldAccess;
}

const KINDS: Readonly<Record<JointKind, string>> = {
  butt: 'butt',
  lap: 'lap',
  flange: 'flange, lapped',
  edge: 'edge',
  corner: 'corner',
  tee: 'tee',
};

export const kindText = (kind: JointKind): string => KINDS[kind];

/** `wrap, top`, or `box, its own corners`, or `collar, its own edges`. */
export const betweenText = ({ pieces: [a, b], kind }: Weld): string =>
  a !== b ? `${a}, ${b}` : kind === 'butt' ? `${a}, its own edges` : `${a}, its own corners`;

/** `594 + 2 x 297`. */
export const stretchesText = ({ runs }: Weld, { tape } = printedIn()): string => {
  // Stretches are alike to the millimetre, whatever they are printed in.
  const alike = grouped(
    runs.map(({ lengthMm }) => lengthMm).toSorted((a, b) => b - a),
    (mm) => figure(mm, 0),
  );
  return alike
    .map((same) => {
      const text = tape(same[0] as number, 0);
      return same.length === 1 ? text : `${same.length} x ${text}`;
    })
    .join(' + ');
};

export const gapText = ([least, most]: Weld['gapMm'], { machine } = printedIn()): string => {
  const [a, b] = [machine(least, 1), machine(most, 1)];
  return a === b ? a : `${a} to ${b}`;
};

const sidesText = (from: readonly Side[], isSharedOut: boolean): string =>
  from.join(isSharedOut ? ' and ' : ' or ');

/** From where it is welded, and what is in the way. */
export const accessText = ({ access: { from, blocker, unreachedMm } }: ReachedWeld): string => {
  if (unreachedMm === 0) return sidesText(from, false);
  const what = `${figure(unreachedMm, 0)} mm out of reach`;
  return blocker === undefined ? what : `${what}: a torch meets ${blocker}`;
};

/** Letters of welds as a list: `C, D and E`. */
export const lettersText = (welds: readonly Pick<Weld, 'letter'>[]): string =>
  listed(welds.map(({ letter }) => letter));

export const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

const seamsText = (welds: readonly Pick<Weld, 'letter'>[]): string =>
  `${welds.length === 1 ? 'seam' : 'seams'} ${lettersText(welds)}`;

/** A step of joining: what is put in place, and what is welded then. */
export interface JoinStep {
  readonly title: string;
  readonly lines: readonly string[];
  /** Pieces up to this turn stand when it is done; nothing where each piece is still by itself. */
  readonly turn: number;
  readonly welds: readonly ReachedWeld[];
}

const TACK =
  'Tack at both ends of each seam, then half way between tacks until they are some 50 mm apart (common practice); measure, and weld when it is right.';

/** The order of joining: the welds of single pieces, then turn by turn. */
export const joinSteps = (
  { pieces }: Assembly,
  welds: readonly ReachedWeld[],
  bolts: readonly BoltedHoles[] = [],
): readonly JoinStep[] => {
  const turns = [...new Set(pieces.map(({ turn }) => turn))].toSorted((a, b) => a - b);
  return [
    ...ownSteps(pieces, welds),
    ...turns.map((_, i) => turnStep(pieces, { welds, bolts }, turns, i)),
  ];
};

/** What is done to pieces before they are joined. */
const ownSteps = (pieces: Assembly['pieces'], welds: readonly ReachedWeld[]): JoinStep[] => {
  const own = welds.filter(({ turn }) => turn === 0);
  const rolled = [...new Set(pieces.filter(({ isRolled }) => isRolled).map(({ id }) => id))];
  if (own.length === 0) return [];
  const lines = [
    ...(rolled.length === 0 ? [] : [`Roll ${listed(rolled)}.`]),
    ...own.map((weld) => `Weld ${weld.letter}: ${betweenText(weld)}.`),
  ];
  return [{ title: 'Each piece by itself', lines, turn: 0, welds: own }];
};

const turnStep = (
  pieces: Assembly['pieces'],
  {
    welds,
    bolts,
  }: { readonly welds: readonly ReachedWeld[]; readonly bolts: readonly BoltedHoles[] },
  turns: readonly number[],
  i: number,
): JoinStep => {
  const turn = turns[i] as number;
  const ids = [...new Set(pieces.filter((piece) => piece.turn === turn).map(({ id }) => id))];
  const some = welds.filter((weld) => weld.turn === turn);
  const inner = welds.filter((weld) => weld.turn > 0 && isInner(weld.access.from));
  // What is put on last may shut the inside off.
  const isClosing =
    i > 0 &&
    i === turns.length - 1 &&
    inner.length > 0 &&
    some.every(({ access }) => !access.from.includes('inside'));
  const lines = [
    ...(isClosing
      ? [
          `The last piece, ${listed(ids)}, shuts the inside off: look over ${seamsText(inner)} first, and clean out spatter and slag.`,
        ]
      : []),
    some.length > 0
      ? `${capital(seamsText(some))}. ${TACK}`
      : i === 0
        ? 'Stand it on the bench, square and level.'
        : (boltedText(pieces, bolts, turn) ??
          'It is not welded: put it in place and try how it fits.'),
    ...insideLines(some),
  ];
  return { title: titleOf(ids, i, some.length > 0), lines, turn, welds: some };
};

/** What is bolted when a turn is put on to what stands. */
const boltedText = (
  pieces: Assembly['pieces'],
  bolts: readonly BoltedHoles[],
  turn: number,
): string | undefined => {
  const turnOf = (piece: string): number => pieces.find(({ name }) => name === piece)?.turn ?? 0;
  const here = bolts.filter(
    ({ through: [a, b] }) => Math.max(turnOf(a.piece), turnOf(b.piece)) === turn,
  );
  const called = here.map(
    ({ screw, through: [a, b] }) =>
      `${screw === undefined ? '' : `${screw} through `}${a.piece} ${a.hole} and ${b.piece} ${b.hole}`,
  );
  return called.length === 0 ? undefined : `It is bolted on: ${called.join(', ')}.`;
};

const isInner = (from: readonly Side[]): boolean =>
  from.includes('inside') && !from.includes('outside');

const titleOf = (ids: readonly string[], i: number, isWelded: boolean): string => {
  if (i === 0) return ids.length === 1 ? `Begin with ${ids[0] ?? ''}` : `Join ${listed(ids)}`;
  return isWelded ? `Add ${listed(ids)}` : `Put on ${listed(ids)}`;
};

const insideLines = (welds: readonly ReachedWeld[]): string[] => {
  const inside = welds.filter(({ access: { from } }) => isInner(from));
  return inside.length === 0 || inside.length === welds.length
    ? inside.length === 0
      ? []
      : ['From inside.']
    : [`${lettersText(inside)} from inside.`];
};
