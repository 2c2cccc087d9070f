import type { Extents } from '../geometry/extents.ts';
import type { Piece } from '../geometry/piece.ts';
import { boxOfAll, pieceBox } from '../geometry/piece-length.ts';
import { sub, type Vec2 } from '../geometry/vec2.ts';
import type { Finding } from '../model/finding.ts';
import type { Picture, PictureItem } from '../model/picture.ts';
import { markNumber, markRing } from '../paper/draw/finding-marks.ts';
import { pictureSvg } from '../paper/write/picture-svg.ts';
import { xmlText } from '../dxf/write/text.ts';
import type { Inspected } from './inspect.ts';
import { NO_SIZE_MM } from '../geometry/tolerance.ts';

/** Size at which the drawing is shown, mm; its own size is in the text. */
const SHOWN_MM = 250;
const MARGIN_MM = 12;
const LINE_MM = 4.5;
const TEXT_MM = 3;

/**
 * The file as it is drawn, with a numbered ring round each place where something was found, and
 * what was found. `mark` is its title.
 */
export const markedSvg = (found: Inspected, mark: string): string =>
  pictureSvg(pictureOf(found)).replace('>\n', `>\n<title>${xmlText(mark)}</title>\n`);

const pictureOf = ({
  drawing: { origin },
  lines,
  inspection: { findings },
}: Inspected): Picture => {
  const all = [...lines.drawn, ...lines.marks];
  const box: Extents = boxOfAll(all.map(pieceBox)) ?? { minX: 0, minY: 0, maxX: 1, maxY: 1 };
  const scale = SHOWN_MM / Math.max(box.maxX - box.minX, box.maxY - box.minY, NO_SIZE_MM);
  const foot = MARGIN_MM + findings.length * LINE_MM;
  const at = ([x, y]: Vec2): Vec2 => [
    MARGIN_MM + scale * (x - box.minX),
    MARGIN_MM + foot + scale * (y - box.minY),
  ];
  const drawn = ({ from, to, bulge }: Piece): Piece => ({ from: at(from), to: at(to), bulge });
  const items: PictureItem[] = [
    ...[...lines.closed, ...lines.open, ...lines.strays].map((chain): PictureItem => ({
      kind: 'curve',
      pieces: chain.map(drawn),
      stroke: { widthMm: 0.35 },
    })),
    ...lines.marks.map((p): PictureItem => ({
      kind: 'curve',
      pieces: [drawn(p)],
      stroke: { widthMm: 0.2, shade: 0.5, dashMm: [3, 1] },
    })),
    ...findings.flatMap((finding, i) => ringed(finding, i + 1, (p) => at(sub(p, origin)))),
    ...findings.map((finding, i): PictureItem => ({
      kind: 'label',
      at: [MARGIN_MM, foot - i * LINE_MM],
      sizeMm: TEXT_MM,
      text: `${i + 1}: ${finding.message}`,
    })),
  ];
  return {
    widthMm: SHOWN_MM + 2 * MARGIN_MM,
    heightMm: 2 * MARGIN_MM + foot + scale * (box.maxY - box.minY),
    items,
  };
};

const ringed = ({ at: place }: Finding, number: number, at: (p: Vec2) => Vec2): PictureItem[] => {
  if (place === undefined) return [];
  const centre = at(place);
  return [markRing(centre), markNumber(centre, String(number))];
};
