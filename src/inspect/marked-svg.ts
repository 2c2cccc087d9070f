import type { Extents } from '../geometry/extents.ts';
import type { Piece } from '../geometry/piece.ts';
import { boxOfAll, pieceBox } from '../geometry/piece-length.ts';
import { sub, type Vec2 } from '../geometry/vec2.ts';
import type { Finding } from '../model/finding.ts';
import type { Picture, PictureItem } from '../model/picture.ts';
import { markItems, ringObstacles, ringsOf, type Ring } from '../paper/draw/finding-marks.ts';
import { Placer } from '../paper/draw/placer.ts';
import { wrapped } from '../paper/draw/wrap.ts';
import { pictureSvg } from '../paper/write/picture-svg.ts';
import { foundSign, SEVERITY_WORDS } from './found-signs.ts';
import type { Inspected } from './inspect.ts';
import { NO_SIZE_MM } from '../geometry/tolerance.ts';
import { xmlText } from '../text/xml.ts';

/** Size at which the drawing is shown, mm; its own size is in the text. */
const SHOWN_MM = 250;
const MARGIN_MM = 12;
/** Whoever opens the picture may have letters a little wider than those measured. */
const MARGIN_SHARE = 0.85;
/** Of a capital, over the size of its font. */
const CAPITAL_SHARE = 0.72;
const SEVERITIES = ['stop', 'warn', 'note'] as const;
const LINE_MM = 4.5;
const TEXT_MM = 3;

/**
 * The file as it is drawn, its texts with it, with a numbered sign at each place where something was
 * found, and what was found. `mark` is its title.
 */
export const markedSvg = (found: Inspected, mark: string): string =>
  pictureSvg(markedPicture(found)).replace('>\n', `>\n<title>${xmlText(mark)}</title>\n`);

/** The picture itself: the drawing, and under it the texts about what was found. */
export const markedPicture = ({
  drawing: { origin, texts: written },
  lines,
  inspection: { findings },
}: Inspected): Picture => {
  const all = [...lines.drawn, ...lines.marks];
  const box: Extents = boxOfAll(all.map(pieceBox)) ?? { minX: 0, minY: 0, maxX: 1, maxY: 1 };
  const scale = SHOWN_MM / Math.max(box.maxX - box.minX, box.maxY - box.minY, NO_SIZE_MM);
  const texts = findings.flatMap(({ severity, message }, i) =>
    wrapped(`${SEVERITY_WORDS[severity]} ${i + 1}: ${message}`, MARGIN_SHARE * SHOWN_MM, TEXT_MM),
  );
  const foot = MARGIN_MM + texts.length * LINE_MM;
  const at = ([x, y]: Vec2): Vec2 => [
    MARGIN_MM + scale * (x - box.minX),
    MARGIN_MM + foot + scale * (y - box.minY),
  ];
  const drawn = ({ from, to, bulge }: Piece): Piece => ({ from: at(from), to: at(to), bulge });
  const chains = [...lines.closed, ...lines.open, ...lines.strays].map((c) => c.map(drawn));
  const marks = lines.marks.map(drawn);
  const size = {
    widthMm: SHOWN_MM + 2 * MARGIN_MM,
    heightMm: 2 * MARGIN_MM + foot + scale * (box.maxY - box.minY),
  };
  const items: PictureItem[] = [
    ...chains.map((pieces): PictureItem => ({ kind: 'curve', pieces, stroke: { widthMm: 0.35 } })),
    ...marks.map((p): PictureItem => ({
      kind: 'curve',
      pieces: [p],
      stroke: { widthMm: 0.2, shade: 0.5, dashMm: [3, 1] },
    })),
    ...written.map((t): PictureItem => ({
      kind: 'label',
      at: at(t.at),
      sizeMm: (scale * t.heightMm) / CAPITAL_SHARE,
      text: t.text,
      angleDeg: t.angleDeg,
    })),
    ...ringed(findings, (p) => at(sub(p, origin)), [...chains.flat(), ...marks], size),
    ...texts.map((text, i): PictureItem => ({
      kind: 'label',
      at: [MARGIN_MM, foot - i * LINE_MM],
      sizeMm: TEXT_MM,
      text,
    })),
  ];
  return { ...size, items };
};

/** What it costs a number to lie across a line of the drawing, and across the leader of another. */
const LINE_COST = 100;
const LEADER_COSTS = { across: 200, crossing: 60 } as const;

/** A sign at each place where something was found, its number beside it where there is room. */
const ringed = (
  findings: readonly Finding[],
  at: (p: Vec2) => Vec2,
  lines: readonly Piece[],
  { widthMm, heightMm }: Omit<Picture, 'items'>,
): PictureItem[] => {
  const rings = ringsOf(
    findings.flatMap(({ at: place }, i) =>
      place === undefined ? [] : [{ at: place, number: i + 1 }],
    ),
    [],
    { scale: 1, at },
  );
  const placer = new Placer({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm }, LEADER_COSTS);
  placer.avoid(
    ...lines.map(({ from, to }) => ({ line: [from, to] as const, cost: LINE_COST })),
    ...ringObstacles(rings),
  );
  const signOf = ({ centre, numbers }: Ring): PictureItem[] => {
    const all = numbers.map((number) => (findings[number - 1] as Finding).severity);
    return foundSign(centre, SEVERITIES.find((severity) => all.includes(severity)) ?? 'note');
  };
  return [...markItems(rings, placer, signOf).items];
};
