import type { FlatBend, FlatPattern } from '../../src/model/flat.ts';
import type { Machine } from '../../src/model/machine.ts';
import { isApart, meet, mover, type Place } from './replay-solid-convex.ts';
import { bodiesOf } from './replay-solid-machine.ts';
import {
  bendMetal,
  bentTo,
  beyond,
  FLAT,
  type Metal,
  ontoMachine,
  overFold,
  panelMetal,
  remembered,
  type Section,
  type Stance,
} from './replay-solid-metal.ts';
import { helpedBodies, SPRING_MM } from './replay-solid-help.ts';
import { type Body, bodyAt, type Stretch } from './replay-solid-body.ts';
import {
  bendOf,
  type Stage,
  stagesOf,
  type Stroke,
  targetOf,
  turnsOneSide,
  type Way,
} from './replay-solid-stage.ts';

export interface Contact {
  readonly stroke: string;
  /** A panel, or `bend` and its name. */
  readonly what: string;
  /** A body of the machine, or what stays. */
  readonly into: string;
  readonly deepestMm: number;
  readonly atDeg: number;
  /** Whether it was ever deeper than can be explained. */
  readonly isFault: boolean;
}

export interface Replayed {
  /**
   * Whatever reached into something by at least the least of `DEPTHS_MM`, the deepest of each two.
   */
  readonly contacts: readonly Contact[];
  readonly degrees: number;
  /** What the folds stand at in the end. */
  readonly stands: ReadonlyMap<string, number>;
}

/**
 * How deep a contact is is told in these steps: the last one by which the one may shrink all round
 * and still meet the other.
 */
export const DEPTHS_MM = [
  0.05, 0.15, 0.3, 0.35, 0.42, 0.5, 0.75, 1, 1.5, 2, 3, 4, 6, 8, 12, 20,
] as const;

/**
 * What may touch: the planner's gap of 0.3 mm; its chords, which leave out up to 0.1 mm of a round
 * corner; and 0.02 for rounding. Looking at whole degrees only finds less, never more.
 */
const TOUCH_MM = 0.42;

/**
 * Goes through strokes degree by degree.
 *
 * @param before folds that are made before the first of them
 */
export const replaySolid = (
  flat: FlatPattern,
  machine: Machine,
  strokes: readonly Stroke[],
  way: Way,
  before: readonly string[] = [],
): Replayed => {
  const contacts = new Map<string, Contact>();
  const made = new Map(
    before.map((id): [string, Stance] => [id, bentTo(bendOf(flat, id), bendOf(flat, id).angleDeg)]),
  );
  let degrees = 0;
  for (const stroke of strokes) {
    const isLeafLike = turnsOneSide(machine, stroke);
    const springMm = stroke.help === undefined ? 0 : SPRING_MM;
    const stages = stagesOf(flat, machine, stroke, made, way).map((s) => ({
      ...s,
      offMm: s.offMm + springMm,
    }));
    const pieces = piecesOf(flat, stroke, made);
    const places = stroke.places ?? [usualPlace(flat, machine, stroke)];
    const tell = notedIn(contacts, stroke.bends.join(' + '));
    // What does not move is posed once.
    const isFixed = ({ swings }: Piece): boolean => isLeafLike && !swings;
    const [first] = stages as [Stage];
    const fixed = pieces.filter(isFixed).map((p) => posedAt(p, first));
    const sheet = {
      thicknessMm: flat.thicknessMm,
      insideRadiusMm: bendOf(flat, stroke.bends[0] as string).insideRadiusMm,
      angleDeg: targetOf(flat, machine, stroke),
    };
    const bodies =
      stroke.help === undefined
        ? bodiesOf(machine, sheet).map((b) => bodyAt(b, places))
        : helpedBodies(machine, sheet, stroke.help, places);
    const rest = bodies.map((body) => body(first));
    for (const stage of stages) {
      const posed = [...fixed, ...pieces.filter((p) => !isFixed(p)).map((p) => posedAt(p, stage))];
      contactsAt(
        posed,
        bodies.map((body, i) => (body.moves ? body(stage) : (rest[i] as Body))),
        stage,
        tell,
      );
    }
    degrees += stages.length;
    for (const id of stroke.bends)
      made.set(id, bentTo(bendOf(flat, id), stroke.keepsDeg ?? bendOf(flat, id).angleDeg));
  }
  return {
    contacts: [...contacts.values()],
    degrees,
    stands: new Map(flat.bends.map((b) => [b.id, made.get(b.id)?.deg ?? 0])),
  };
};

/** Keeps the deepest contact of each two in a stroke. */
const notedIn =
  (contacts: Map<string, Contact>, stroke: string): Tell =>
  (what, into, atDeg, deepestMm, isTooDeep) => {
    const key = JSON.stringify([stroke, what, into]);
    const known = contacts.get(key);
    const isFault = isTooDeep || known?.isFault === true;
    if (known === undefined || deepestMm > known.deepestMm)
      contacts.set(key, { stroke, what, into, deepestMm, atDeg, isFault });
    else if (isFault !== known.isFault) contacts.set(key, { ...known, isFault });
  };

/** From one end of what is bent to the other; a beam of one piece reaches beyond both. */
const usualPlace = (flat: FlatPattern, machine: Machine, stroke: Stroke): Stretch => {
  if (machine.kind === 'folder' && machine.clamp.kind === 'one piece')
    return { from: -machine.workingLengthMm.value, to: machine.workingLengthMm.value };
  const zs = linesOf(flat, stroke).flatMap(({ from, to }) => [from, to]);
  return { from: Math.min(...zs), to: Math.max(...zs) };
};

/** Where the folds of a stroke lie along the machine. */
export const linesOf = (flat: FlatPattern, { bends, clamped }: Stroke): readonly Stretch[] => {
  const first = bendOf(flat, bends[0] as string);
  const onto = ontoMachine(first, flat.thicknessMm, first.parent === clamped, (over, height) => [
    over,
    height,
  ]);
  return bends.map((id) => {
    const zs = bendOf(flat, id).centreLine.map(([x, y]) => onto([x, y, 0])[2]);
    return { from: Math.min(...zs), to: Math.max(...zs) };
  });
};

/** A piece of the part, and the way it goes. */
interface Piece {
  readonly metal: Metal;
  readonly swings: boolean;
  readonly place: (stage: Stage) => Place;
}

/**
 * Every panel and every bend but those that are being made, seen from the clamped panel outwards.
 */
const piecesOf = (
  flat: FlatPattern,
  stroke: Stroke,
  made: ReadonlyMap<string, Stance>,
): Piece[] => {
  const { thicknessMm: t } = flat;
  const first = bendOf(flat, stroke.bends[0] as string);
  const pieces: Piece[] = [];
  const visit = (panel: string, swings: boolean, place: Piece['place'], last?: FlatBend): void => {
    pieces.push({ metal: panelMetal(flat, panel), swings, place });
    for (const bend of flat.bends) {
      if (bend === last || (bend.parent !== panel && bend.child !== panel)) continue;
      const isToChild = bend.parent === panel;
      const isMade = stroke.bends.includes(bend.id);
      const stance = made.get(bend.id) ?? FLAT;
      const section = (stage: Stage): Section =>
        isMade ? stage.over : beyond(stance, bend.insideRadiusMm, t);
      const next = (stage: Stage): Place => {
        const [near, over] = [place(stage), overFold(bend, t, isToChild, section(stage))];
        return (p) => near(over(p));
      };
      visit(isToChild ? bend.child : bend.parent, swings !== isMade, next, bend);
      if (!isMade)
        pieces.push({
          metal: bendMetal(flat, bend, stance),
          swings,
          place: isToChild ? place : next,
        });
    }
  };
  visit(stroke.clamped, false, (stage) =>
    ontoMachine(first, t, first.parent === stroke.clamped, stage.onto),
  );
  return pieces;
};

type Tell = (
  what: string,
  into: string,
  atDeg: number,
  deepestMm: number,
  isTooDeep: boolean,
) => void;

/** A piece at some stage: its bodies less so much all round. */
interface Posed extends Body {
  readonly swings: boolean;
}

const posedAt = ({ metal, swings, place }: Piece, stage: Stage): Posed => {
  const move = mover(place(stage));
  return {
    name: metal.name,
    roundMm: metal.roundMm,
    swings,
    box: move.box(metal.box),
    less: remembered((mm) => metal.less(mm).map(move.body)),
  };
};

const contactsAt = (
  posed: readonly Posed[],
  bodies: readonly Body[],
  stage: Stage,
  tell: Tell,
): void => {
  const look = (what: Body, into: Body, shrinking: Body, other: Body, atDeg: number): void => {
    if (isApart(shrinking.box, other.box)) return;
    const meets = (mm: number): boolean => meet(shrinking.less(mm), other.less(0));
    const most = DEPTHS_MM.findIndex((mm) => !meets(mm));
    if (most === 0) return;
    tell(
      what.name,
      into.name,
      atDeg,
      DEPTHS_MM.at(most - 1) as number,
      meets(TOUCH_MM + what.roundMm + into.roundMm + stage.offMm),
    );
  };
  for (const body of bodies) for (const piece of posed) look(piece, body, body, piece, stage.deg);
  for (const swung of posed.filter((p) => p.swings))
    for (const still of posed.filter((p) => !p.swings))
      look(swung, still, swung, still, stage.bentDeg);
};
