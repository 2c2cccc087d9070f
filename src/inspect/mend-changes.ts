import { figure } from '../text/figures.ts';
import type { Oddity, Stroke } from '../dxf/read/explode.ts';
import { printable } from '../dxf/read/printable.ts';
import { byKey } from '../text/grouped.ts';
import type { Inspected } from './inspect.ts';
import { counted, listedLines } from './listed.ts';
import { placesFrom } from './places.ts';

/**
 * Every way in which the mended copy differs from the file, one line each; many of one sort are
 * counted.
 */
export const changesOf = ({ drawing, lines, twice }: Inspected, errorMm: number): string[] => {
  const {
    origin: [x, y],
  } = drawing;
  const place = placesFrom(drawing.origin);
  const arcs = [...lines.open.flat(), ...lines.strays.flat(), ...lines.marks].filter(
    (p) => p.bulge !== 0,
  ).length;
  return [
    ...(x === 0 && y === 0
      ? []
      : [`Moved the drawing by ${figure(-x)}, ${figure(-y)} mm, near to 0.`]),
    ...listedLines(
      lines.gaps.map(
        ({ at, sizeMm }) => `Joined a gap of ${figure(sizeMm, 3)} mm at ${place(at)}.`,
      ),
    ),
    ...listedLines(
      twice.map(
        ({ at, doubledMm }) =>
          `Removed ${figure(doubledMm, 3)} mm that lay on other lines, at ${place(at)}.`,
      ),
    ),
    ...listedLines(lines.empty.map(({ from }) => `Removed a line of no length at ${place(from)}.`)),
    ...[...byKey(drawing.oddities, (o) => o.why).values()].flatMap((all) =>
      listedLines(all.map(oddityChange)),
    ),
    ...curveChanges(drawing.strokes, errorMm),
    ...(arcs === 0
      ? []
      : [
          `Wrote ${counted(arcs, 'arc')} of lines that close no contour as straight lines within ${figure(errorMm, 4)} mm.`,
        ]),
    ...(drawing.unit.mm === 1 ? [] : [`Wrote millimetres in place of ${drawing.unit.name}.`]),
    'Put outlines, holes and other cuts on layers of their own; lines that are not cut on the layer for marks.',
  ];
};

const oddityChange = ({ type, layer, why, count, detail }: Oddity): string => {
  const what = `${count} ${printable(type)} on layer '${printable(layer)}'`;
  if (why === 'block')
    return `Took block '${printable(detail)}' apart, put in ${counted(count, 'time')} on layer '${printable(layer)}'.`;
  if (why === 'above the sheet') return `Laid ${what} at height 0.`;
  return why === 'wide' ? `Took the width of ${what} away.` : `Left out ${what}.`;
};

const curveChanges = (strokes: readonly Stroke[], errorMm: number): string[] =>
  [
    ...byKey(
      strokes.filter(({ primitive }) => primitive.kind !== 'piece'),
      (s) => s.type,
    ),
  ].map(
    ([type, all]) =>
      `Turned ${new Set(all.map((s) => s.entity)).size} ${printable(type)} into arcs within ${figure(errorMm, 4)} mm.`,
  );
