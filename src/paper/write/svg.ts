import type { Extents } from '../../geometry/extents.ts';
import type { Loop, Vertex } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Drawing, DrawingItem } from '../../model/drawing.ts';
import { drawingExtents } from '../../model/drawing-extents.ts';
import { fileItems } from '../../dxf/write/file-items.ts';
import { usedLayers, type Layer } from '../../dxf/write/layers.ts';
import { headLines } from '../../dxf/write/text.ts';
import { fileNumber } from '../../text/file-number.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';

export interface SvgOptions {
  /** Leaves out everything but outline and holes. */
  readonly cutOnly: boolean;
}

/**
 * Line width of cuts and folds alike, mm: thin enough to count as no width, thick enough to see.
 */
const HAIRLINE_MM = 0.1;

/** Room on each side, mm, so that no line along the edge is cut in half. */
const MARGIN_MM = 1;

/**
 * Height of a capital over the size of the font, by which SVG sizes a text: about 0.72 in the usual
 * sans-serif fonts (common practice).
 */
const CAPITAL_HEIGHT = 0.72;

/**
 * The drawing as an SVG picture in true size: a user unit is a millimetre, as width and height
 * state. The picture is 1 mm larger on each side than what is drawn; that changes its size, not its
 * scale. y is turned over in the numbers themselves, without any transform, as some readers forget
 * those. Throws when a number is not finite.
 */
export const writeSvg = (drawing: Drawing, { cutOnly }: SvgOptions): string => {
  const items = fileItems(drawing, { cutOnly });
  const extents = drawingExtents(items) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const place: Placement = { top: fileNumber(extents.maxY) };
  const groups = usedLayers(items).flatMap((layer) =>
    layerGroup(
      layer,
      items.filter((item) => item.role === layer.role),
      place,
    ),
  );
  const head = headLines(drawing);
  const desc = head.length === 0 ? [] : [`  <desc>${head.map(xmlText).join('\n')}</desc>`];
  return [
    rootTag(extents),
    `  <title>${xmlText(singleLine(drawing.title))}</title>`,
    ...desc,
    ...groups,
    '</svg>',
    '',
  ].join('\n');
};

/** Where y = `top` of the drawing lies in the picture: at 0. */
interface Placement {
  readonly top: number;
}

const rootTag = ({ minX, minY, maxX, maxY }: Extents): string => {
  const width = fileNumber(maxX - minX + 2 * MARGIN_MM);
  const height = fileNumber(maxY - minY + 2 * MARGIN_MM);
  const viewBox = `${fileNumber(minX - MARGIN_MM)} ${-MARGIN_MM} ${width} ${height}`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="${viewBox}">`;
};

const layerGroup = (
  { name, svgColour }: Layer,
  items: readonly DrawingItem[],
  place: Placement,
): string[] => [
  `  <g id="${name}" fill="none" stroke="${svgColour}" stroke-width="${HAIRLINE_MM}">`,
  ...items.map((item) => `    ${element(item, place, svgColour)}`),
  '  </g>',
];

const element = (item: DrawingItem, place: Placement, colour: string): string => {
  switch (item.kind) {
    case 'loop':
      return `<path d="${pathData(item.loop, place)}"/>`;
    case 'circle': {
      const [cx, cy] = placed(item.centre, place);
      return `<circle cx="${cx}" cy="${cy}" r="${item.radius}"/>`;
    }
    case 'line': {
      const [x1, y1] = placed(item.from, place);
      const [x2, y2] = placed(item.to, place);
      return `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}"/>`;
    }
    case 'text':
      return textElement(item, placed(item.at, place), colour);
  }
};

const placed = (p: Vec2, { top }: Placement): Vec2 => [p[0], fileNumber(top - p[1])];

const pathData = (loop: Loop, place: Placement): string => {
  const start = loop[0] as Vertex;
  const pieces = loop.map((v, i) => {
    const next = loop[i + 1] ?? start;
    const [x, y] = placed([next.x, next.y], place);
    if (v.bulge !== 0) return `A${radiusText(v, next)} 0 0 ${v.bulge > 0 ? 0 : 1} ${x} ${y}`;
    return next === start ? '' : `L${x} ${y}`;
  });
  return `M${placed([start.x, start.y], place).join(' ')}${pieces.join('')}Z`;
};

/**
 * Both radii of a piece. A path gives the radius and not the bulge, and near a half circle the rise
 * hangs on the last digits of the radius: hence from the rounded ends, with ten decimals.
 */
const radiusText = (from: Vertex, to: Vertex): string => {
  const chord = Math.hypot(to.x - from.x, to.y - from.y);
  const radius = (chord * (1 + from.bulge * from.bulge)) / (4 * Math.abs(from.bulge));
  const text = radius.toFixed(10).replace(/\.?0+$/, '');
  return `${text} ${text}`;
};

const textElement = (
  item: DrawingItem & { readonly kind: 'text' },
  [x, y]: Vec2,
  colour: string,
): string => {
  const size = fileNumber(item.heightMm / CAPITAL_HEIGHT);
  // Only a turned text needs a transform, and only its own.
  const turn = item.angleDeg === 0 ? '' : ` transform="rotate(${-item.angleDeg} ${x} ${y})"`;
  const font = `font-family="sans-serif" font-size="${size}" fill="${colour}" stroke="none"`;
  return `<text x="${x}" y="${y}"${turn} ${font}>${xmlText(item.text)}</text>`;
};
