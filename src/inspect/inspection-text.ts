import { findingLine } from '../model/finding-line.ts';
import { figure } from '../text/figures.ts';
import { printable } from '../dxf/read/printable.ts';
import { counted, MOST_LISTED } from './listed.ts';
import type { Inspection } from '../contract/inspection.ts';

const FROM = {
  file: 'as the file states',
  asked: 'as asked',
  assumed: 'assumed: the file states none',
} as const;

/** What was found in one file, as text for people. It is ASCII where the file's own names are. */
export const inspectionText = (
  file: string,
  {
    version,
    unit,
    extents,
    contours,
    areaMm2,
    cutLengthMm,
    doubledMm,
    pierces,
    layers,
    findings,
  }: Inspection,
): string => {
  const size =
    extents === null
      ? 'nothing to cut'
      : `${figure(extents.maxX - extents.minX)} x ${figure(extents.maxY - extents.minY)} mm, from (${figure(extents.minX)}, ${figure(extents.minY)}) to (${figure(extents.maxX)}, ${figure(extents.maxY)})`;
  const rows = [
    ['release', version],
    ['unit', `${unit.name}, ${FROM[unit.from]}`],
    ['size', size],
    [
      'contours',
      `${contours.closed} closed (${counted(contours.parts, 'part')}, ${counted(contours.holes, 'hole')}), ${contours.open} open${contours.gaps > 0 ? `, ${counted(contours.gaps, 'gap')} to be joined` : ''}`,
    ],
    ['area', `${figure(areaMm2 / 100)} cm2`],
    [
      'cut',
      `${figure(cutLengthMm / 1000, 3)} m, ${counted(pierces, 'pierce')}${doubledMm > 0 ? `; ${figure(doubledMm)} mm drawn twice` : ''}`,
    ],
    ['layers', layersText(layers)],
  ] as const;
  return [
    file,
    ...rows.map(([name, value]) => `  ${name.padEnd(9)} ${value}`.trimEnd()),
    ...(findings.length === 0
      ? ['  nothing found that stands in the way']
      : findings.map((f) => `  ${findingLine(f)}`)),
  ].join('\n');
};

const layersText = (layers: Inspection['layers']): string => {
  const named = layers
    .slice(0, MOST_LISTED)
    .map((l) => `${printable(l.name)} (${counted(l.pieces, 'line')}, ${figure(l.lengthMm)} mm)`);
  return [
    ...named,
    ...(layers.length > MOST_LISTED ? [`${layers.length - MOST_LISTED} more`] : []),
  ].join(', ');
};
