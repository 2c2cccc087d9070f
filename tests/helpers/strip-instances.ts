import type { StripResult } from '../../src/contract/lay.ts';
import { moveLoop } from '../../src/geometry/motion2.ts';
import { cosDeg, sinDeg } from '../../src/geometry/degrees.ts';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { type Fault, layoutFaults, type Lying } from '../../src/laid/check-layout.ts';
import { publishedFile } from './published.ts';

/** A strip and its items, in the form of the published instances. */
export interface StripInstance {
  readonly name: string;
  readonly stripWidth: number;
  readonly items: readonly {
    readonly id: number;
    readonly demand: number;
    readonly allowedRotations: readonly number[];
    readonly polygon: readonly Vec2[];
  }[];
}

type Figures = Readonly<Record<string, number>>;

/** Densities in per cent, as published; the file names its sources. */
export const PUBLISHED_LAYOUTS = publishedFile<{
  readonly best: Figures;
  readonly expected2025: Figures;
  readonly expected2013: Figures;
  readonly instances: readonly StripInstance[];
}>('layout');

export const stripInstance = (name: string): StripInstance => {
  const found = PUBLISHED_LAYOUTS.instances.find((one) => one.name === name);
  if (found === undefined) throw new Error(`layout.json has no instance ${name}`);
  return found;
};

/**
 * What is wrong with a layout of an instance: all items there, in allowed turns, on the strip, and
 * none in another by more than a millionth of its width.
 */
export const stripFaults = (
  { items, stripWidth }: StripInstance,
  { placements, usedLength }: StripResult,
): readonly (Fault | string)[] => {
  const counted = items.flatMap(({ id, demand, allowedRotations }): string[] => {
    const own = placements.filter(({ item }) => item === id);
    const turned = own.filter(({ turnDeg }) => !allowedRotations.includes(turnDeg));
    return [
      ...(own.length === demand ? [] : [`${own.length} of ${demand} items ${id}`]),
      ...turned.map(({ turnDeg }) => `item ${id} turned by ${turnDeg}`),
    ];
  });
  const lying = placements.map(({ item, x, y, turnDeg }, i): Lying => {
    const points = items.find(({ id }) => id === item)?.polygon ?? [];
    const motion = { c: cosDeg(turnDeg), s: sinDeg(turnDeg), x, y };
    return { name: `${i}: ${item}`, outline: moveLoop(motion, polygon(...points)), holes: [] };
  });
  const ground = { outline: rectangle(0, 0, usedLength, stripWidth), holes: [] };
  const withinMm = 1e-6 * stripWidth;
  return [...counted, ...layoutFaults(lying, ground, { gapMm: 0, edgeMm: 0, withinMm })];
};
