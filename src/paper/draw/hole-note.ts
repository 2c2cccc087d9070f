import { figure } from '../../text/figures.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { workText } from '../sizes/hole-work.ts';
import type { FlatCutout, FlatPattern } from '../../model/flat.ts';
import { loopExtents } from '../../geometry/extents.ts';
import { HEIGHTS, type BlankTextRoom, type TextItem, textWidth } from './blank-text-room.ts';

/** Larger letters beside a hole would hide it. */
const TALLEST_MM = 3.5;

/**
 * A word beside every hole that is more than cut: on the metal, in the largest letters that find
 * room, above, below or beside it.
 */
export const holeNotes = (room: BlankTextRoom, { cutouts }: FlatPattern): TextItem[] =>
  cutouts.flatMap((hole) => {
    const text = noteOf(hole);
    if (text === '') return [];
    const all = HEIGHTS.filter((h) => h <= TALLEST_MM).flatMap((h) => placesBeside(hole, text, h));
    // A note without room is on the sheet all the same.
    const placed = room.place(all.map((place) => [place])) ?? [];
    return placed.map((item) => ({ ...item, turnedOver: noteOf(fromOtherFace(hole)) }));
  });

/** The hole as it is to whoever looks at the other face. */
const fromOtherFace = (hole: FlatCutout): FlatCutout => {
  const countersink = hole.use?.countersink;
  if (countersink === undefined) return hole;
  const face = countersink.face === 'up' ? 'down' : 'up';
  return { ...hole, use: { ...hole.use, countersink: { ...countersink, face } } };
};

/** `D3.3 drill, M4x0.7 tapped`. */
const noteOf = (hole: FlatCutout): string => {
  const work = workText(hole.use);
  return work === '' || hole.use?.isDrilled !== true || hole.kind !== 'round'
    ? work
    : `D${figure(hole.diameterMm)} ${work}`;
};

const placesBeside = (hole: FlatCutout, text: string, heightMm: number): TextItem[] => {
  const [[x, y], across, up] = sizeOf(hole);
  const [long, gap] = [textWidth(text, heightMm), heightMm / 2];
  const at: Vec2[] = [
    [x - long / 2, y + up + gap],
    [x - long / 2, y - up - gap - heightMm],
    [x + across + gap, y - heightMm / 2],
    [x - across - gap - long, y - heightMm / 2],
  ];
  return at.map((place) => ({
    kind: 'text',
    role: 'note',
    at: place,
    heightMm,
    angleDeg: 0,
    text,
  }));
};

/** Its middle, and half its size. */
const sizeOf = (hole: FlatCutout): readonly [Vec2, number, number] => {
  if (hole.kind === 'round') return [hole.centre, hole.diameterMm / 2, hole.diameterMm / 2];
  const { minX, minY, maxX, maxY } = loopExtents(hole.loop) ?? {
    minX: 0,
    minY: 0,
    maxX: 0,
    maxY: 0,
  };
  return [[(minX + maxX) / 2, (minY + maxY) / 2], (maxX - minX) / 2, (maxY - minY) / 2];
};
