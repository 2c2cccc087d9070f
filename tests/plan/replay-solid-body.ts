import {
  bar,
  type Box,
  boxRound,
  type Convex,
  type Flat,
  lessStrip,
  type Vec,
} from './replay-solid-convex.ts';
import type { MachineBody, Moment } from './replay-solid-machine.ts';
import { remembered } from './replay-solid-metal.ts';

/** From so far to so far along the fold, from its middle, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A body less so much all round. */
export interface Body {
  readonly name: string;
  /** How far bent metal stands out, as `Metal` has it; 0 for any other. */
  readonly roundMm: number;
  /** All of it lies in there. */
  readonly box: Box;
  readonly less: (mm: number) => readonly Convex[];
}

/** A body of the machine as it stands at a moment. */
export interface BodyAt {
  (moment: Moment): Body;
  readonly moves: boolean;
}

/** A body of the machine, all along the fold or in its places there. */
export const bodyAt = (
  { name, inPlaces, sections, later }: MachineBody,
  places: readonly Stretch[],
): BodyAt => {
  const strips = remembered((mm) =>
    sections.map((section) => lessStrip(section, mm)).filter((section) => section.length > 2),
  );
  const bars = (section: readonly Flat[], mm: number): Convex[] =>
    inPlaces
      ? places
          .filter(({ from, to }) => to - from > 2 * mm)
          .map(({ from, to }) => bar(section, [from + mm, to - mm]))
      : [bar(section)];
  const at = (moment: Moment): Body => {
    const moved =
      later === undefined ? sections : sections.map((section) => section.map(later(moment)));
    return {
      name,
      roundMm: 0,
      box: boxRound(
        moved.flat().flatMap(([x, y]): Vec[] => [
          [x, y, -Infinity],
          [x, y, Infinity],
        ]),
      ),
      less: remembered((mm) =>
        strips(mm).flatMap((section) =>
          bars(later === undefined ? section : section.map(later(moment)), mm),
        ),
      ),
    };
  };
  return Object.assign(at, { moves: later !== undefined });
};
