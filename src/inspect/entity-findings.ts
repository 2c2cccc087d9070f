import { type Finding, note, stop, warn } from '../model/finding.ts';
import type { Oddity, Stroke } from '../dxf/read/explode.ts';
import { isRound } from '../dxf/read/fit-arcs.ts';
import { printable } from '../dxf/read/printable.ts';
import { isMarkLayer } from './intent.ts';
import { counted, listed } from './listed.ts';

/** What is in a file that many cutters do not read, read differently, or cannot cut. */
export const entityFindings = (
  oddities: readonly Oddity[],
  strokes: readonly Stroke[],
): Finding[] => [
  ...listed(oddities.filter((o) => !(o.why === 'text' && isMarkLayer(o.layer))).map(oddityFinding)),
  ...listed(curveFindings(strokes)),
];

const oddityFinding = (o: Oddity): Finding => {
  const what = `${o.count} ${printable(o.type)} on layer '${printable(o.layer)}'`;
  const finding = ((): Finding => {
    switch (o.why) {
      case 'text':
        return warn(
          'text',
          `${what}: cutters cut no text. Leave it out, or have it turned into lines.`,
        );
      case 'block':
        return warn(
          'block',
          `Block '${printable(o.detail)}' is put in ${counted(o.count, 'time')} on layer '${printable(o.layer)}': many cutters read no blocks. Explode it.`,
        );
      case 'paper':
        return note('paper-space', `${what} in paper space, which cutters leave out.`);
      case 'hidden':
        return warn(
          'hidden',
          `${what} switched off or invisible: some cutters cut it all the same. Delete it. It is left out here.`,
        );
      case 'point':
        return warn(
          'point',
          `${what}: a point is no line; some cutters pierce there. Leave it out.`,
        );
      case 'solid':
        return warn('no-line', `${what}: an area or a body, not a line to cut. Draw its outline.`);
      case 'bad':
        return stop(
          'unreadable',
          `${what} ${o.count === 1 ? '' : 'each '}${o.detail}. Draw it anew, or delete it.`,
        );
      case 'depth':
        return stop(
          'unreadable',
          `${what}: blocks lie too deep in one another, or a block holds itself. Explode them.`,
        );
      case 'unknown':
        return warn('unknown', `${what}: not an entity that draws lines. Leave it out.`);
      case 'not flat':
        return stop(
          'not-flat',
          `${what}: it rises out of the plane of the sheet. Draw it flat; here it is looked at from above.`,
        );
      case 'above the sheet':
        return warn('not-flat', `${what}: it lies flat, but not at height 0. Move it down.`);
      case 'by points':
        return warn(
          'curve',
          `${what}: the curve is given by points that it passes, and programs run differently between them. Compare it with what was meant, and save it as arcs.`,
        );
      case 'wide':
        return warn('wide-line', `${what}: the line has a width, which is not cut. Set it to 0.`);
    }
  })();
  return o.at === undefined ? finding : { ...finding, at: o.at };
};

const curveFindings = (strokes: readonly Stroke[]): Finding[] => {
  const found = new Map<
    string,
    { readonly type: string; readonly layer: string; readonly entities: Set<number> }
  >();
  for (const { type, layer, entity, primitive } of strokes) {
    const isCurve =
      primitive.kind === 'spline' ||
      type === 'ELLIPSE' ||
      (primitive.kind === 'conic' && !isRound(primitive));
    if (!isCurve) continue;
    const key = JSON.stringify([type, layer]);
    const known = found.get(key) ?? { type, layer, entities: new Set<number>() };
    known.entities.add(entity);
    found.set(key, known);
  }
  return [...found.values()].map(({ type, layer, entities }) => {
    const kind =
      type === 'SPLINE' || type === 'ELLIPSE'
        ? printable(type)
        : `${printable(type)} drawn out to an ellipse`;
    return warn(
      'curve',
      `${entities.size} ${kind} on layer '${printable(layer)}': many cutters take lines and arcs only. Save it as arcs.`,
    );
  });
};
