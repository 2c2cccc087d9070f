import type { Vec2 } from '../../geometry/vec2.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import type { Printed } from '../../text/printed.ts';
import type { BentTube } from '../../tube/bent-tube.ts';
import { EDGE, HIDDEN, NARROW } from '../draw/line-types.ts';
import { boxRing, line } from '../draw/strokes.ts';
import { textWidthMm } from '../draw/text-width.ts';

const TEXT_MM = 4;
/** Height of the tube as it is drawn; its length alone is to scale. */
const TUBE_MM = 9;
/** Least room for the figures over the tube, which stand upright, and room for the words under it. */
const OVER_MM = 30;
/** From the tube to where its figures begin. */
const TO_FIGURES_MM = 7;
const UNDER_MM = 8;
/** Between two lines of figures that stand beside each other. */
const BESIDE_MM = TEXT_MM * 1.15;

/**
 * The tube as it is cut off, laid straight, with the marks that are put on it, each with its bend and
 * its distance from the leading end, all from one end as a tape lies. Grey is what is bent, and broken
 * lines cut off what is only there for the bender to hold. With `only`, the place of a bend from 0, it
 * has the mark of that alone.
 */
export function markedTube(
  tube: BentTube,
  widthMm: number,
  print: Printed,
  only?: number,
): Picture {
  const { sheet, cutLengthMm, steps } = tube;
  const scale = (widthMm - 2 * BESIDE_MM) / cutLengthMm;
  const x = (mm: number): number => BESIDE_MM + scale * mm;
  const box = (from: number, to: number) => ({
    minX: x(from),
    maxX: x(to),
    minY: UNDER_MM,
    maxY: UNDER_MM + TUBE_MM,
  });
  const marks = [
    ...steps.map(({ bend, markMm }) => ({
      bend,
      at: markMm,
      text: `${bend + 1}: ${print.tape(markMm, 1)}`,
    })),
    { bend: undefined, at: cutLengthMm, text: `cut: ${print.tape(cutLengthMm, 1)}` },
  ]
    .filter(({ bend }) => only === undefined || bend === only)
    .toSorted((a, b) => a.at - b.at);
  const places = spread(
    marks.map(({ at }) => x(at)),
    BESIDE_MM,
    widthMm,
  );
  const top = UNDER_MM + TUBE_MM;
  const trims = [sheet.waste.leadMm, cutLengthMm - sheet.waste.tailMm].filter(
    (mm) => mm > 0 && mm < cutLengthMm,
  );
  const items: PictureItem[] = [
    ...sheet.bends.map(({ startMm, arcMm }): PictureItem => ({
      kind: 'area',
      rims: [boxRing(box(startMm, startMm + arcMm))],
      fill: 0.85,
    })),
    { kind: 'curve', pieces: boxRing(box(0, cutLengthMm)), stroke: EDGE },
    ...trims.map((mm) => line([x(mm), UNDER_MM - 2], [x(mm), top + 2], HIDDEN)),
    ...marks.flatMap(({ at, text }, i): PictureItem[] => {
      const [from, to]: [Vec2, Vec2] = [
        [x(at), top + 2],
        [places[i] ?? x(at), top + TO_FIGURES_MM - 1],
      ];
      return [
        line([x(at), UNDER_MM], [x(at), top + 2], NARROW),
        line(from, to, NARROW),
        {
          kind: 'label',
          at: [to[0] + 0.36 * TEXT_MM, to[1] + 1],
          sizeMm: TEXT_MM,
          text,
          angleDeg: 90,
          isBold: true,
        },
      ];
    }),
    { kind: 'label', at: [x(0), 1.5], sizeMm: TEXT_MM, text: 'leading end', isBold: true },
  ];
  const longest = Math.max(...marks.map(({ text }) => textWidthMm(text, TEXT_MM, true)));
  return { widthMm, heightMm: top + Math.max(OVER_MM, TO_FIGURES_MM + longest + 1), items };
}

/** Places in their order, moved as little as keeps them apart and on the paper. */
const spread = (wanted: readonly number[], apart: number, widthMm: number): number[] => {
  const places = [...wanted];
  for (let i = 1; i < places.length; i += 1)
    places[i] = Math.max(places[i] as number, (places[i - 1] as number) + apart);
  const most = widthMm - apart / 2;
  for (let i = places.length - 1; i >= 0; i -= 1)
    places[i] = Math.min(places[i] as number, most - apart * (places.length - 1 - i));
  return places;
};
