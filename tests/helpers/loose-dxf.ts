import { arcOf } from '../../src/geometry/arc.ts';
import { pieceOf } from '../../src/geometry/piece.ts';
import type { DrawingItem } from '../../src/model/drawing.ts';

const LAYERS: Readonly<Record<string, string>> = {
  outline: 'OUTLINE',
  hole: 'HOLES',
  'fold-up': 'FOLD-UP',
  'fold-down': 'FOLD-DOWN',
};

/**
 * A drawing as other programs save it: every contour taken apart into lines and arcs, each drawn in
 * either direction, in no order, with six decimals. `unit` is the code of $INSUNITS, and `perMm`
 * how many of the unit make a millimetre.
 */
export const looseDxf = (
  items: readonly DrawingItem[],
  { unit = 4, perMm = 1 }: { unit?: number; perMm?: number } = {},
): string => {
  const n = (value: number): string => (value * perMm).toFixed(6);
  const deg = (rad: number): string => ((((rad * 180) / Math.PI) % 360) + 360).toFixed(9);
  const entities = items.flatMap((item): string[] => {
    const layer = LAYERS[item.role];
    if (layer === undefined) return [];
    const line = (
      [ax, ay]: readonly [number, number],
      [bx, by]: readonly [number, number],
    ): string =>
      `0\r\nLINE\r\n8\r\n${layer}\r\n10\r\n${n(ax)}\r\n20\r\n${n(ay)}\r\n11\r\n${n(bx)}\r\n21\r\n${n(by)}`;
    const circle = ([x, y]: readonly [number, number], r: number): string =>
      `0\r\nCIRCLE\r\n8\r\n${layer}\r\n10\r\n${n(x)}\r\n20\r\n${n(y)}\r\n40\r\n${n(r)}`;
    switch (item.kind) {
      case 'line':
        return [line(item.to, item.from)];
      case 'circle':
        return [circle(item.centre, item.radius)];
      case 'text':
        return [];
      case 'loop':
        return item.loop.map((_, i) => {
          const { from, to, bulge } = pieceOf(item.loop, i);
          if (bulge === 0) return i % 3 === 0 ? line(to, from) : line(from, to);
          const { centre, radius, startRad, sweepRad } = arcOf(from, to, bulge);
          const [a, b] =
            sweepRad > 0 ? [startRad, startRad + sweepRad] : [startRad + sweepRad, startRad];
          return `0\r\nARC\r\n8\r\n${layer}\r\n10\r\n${n(centre[0])}\r\n20\r\n${n(centre[1])}\r\n40\r\n${n(radius)}\r\n50\r\n${deg(a)}\r\n51\r\n${deg(b)}`;
        });
    }
  });
  const shuffled = entities
    .map((text, i) => ({ text, key: (i * 7919) % 101 }))
    .sort((a, b) => a.key - b.key)
    .map((e) => e.text);
  const header = `0\r\nSECTION\r\n2\r\nHEADER\r\n9\r\n$INSUNITS\r\n70\r\n${unit}\r\n0\r\nENDSEC`;
  return [header, '0\r\nSECTION\r\n2\r\nENTITIES', ...shuffled, '0\r\nENDSEC\r\n0\r\nEOF\r\n'].join(
    '\r\n',
  );
};
