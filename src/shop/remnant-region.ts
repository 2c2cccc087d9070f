import { readOutline } from '../forms/outline.ts';
import { type Loop, rectangle } from '../geometry/loop.ts';
import type { Region } from '../geometry/region.ts';
import { circle } from '../geometry/shapes.ts';
import type { Remnant, RemnantHole } from '../model/sheets.ts';

/**
 * Outline and holes of a remnant as its file has them, mm; `undefined` where a DXF file has them.
 * Its texts were read before, when the file was.
 */
export const regionOf = (remnant: Remnant): Region | undefined => {
  const { length, width, outline, holes = [] } = remnant;
  const shape =
    outline !== undefined
      ? loopOf(outline)
      : length !== undefined && width !== undefined
        ? rectangle(0, 0, length, width)
        : undefined;
  return shape && { outline: shape, holes: holes.map(holeOf) };
};

const holeOf = ({ x = 0, y = 0, diameter = 0, outline }: RemnantHole): Loop =>
  outline === undefined ? circle([x, y], diameter / 2) : loopOf(outline);

const loopOf = (text: string): Loop => {
  const read = readOutline(text);
  if (!read.ok) throw new Error(`an outline that was read before is none: ${text}`);
  return read.value;
};
