import { arcOf } from '../../geometry/arc.ts';
import type { Piece } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { textWidthMm } from '../draw/text-width.ts';
import { greyHex } from './grey.ts';
import { fileAngle, fileNumber } from '../../text/file-number.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';

/**
 * A picture as one `<svg>` element in true size: a user unit is a millimetre. y is turned over in
 * the numbers. `ids` is put before the names of clip paths, so that several pictures may stand in
 * one page. Throws when a number is not finite.
 */
export const pictureSvg = ({ widthMm, heightMm, items }: Picture, ids = 'p'): string => {
  const [w, h] = [fileNumber(widthMm), fileNumber(heightMm)];
  const pen = new Pen(ids, heightMm);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}" font-family="Helvetica, Arial, sans-serif">`,
    ...items.flatMap((item) => pen.draw(item, [0, 0])),
    '</svg>',
    '',
  ].join('\n');
};

class Pen {
  private clips = 0;
  private readonly ids: string;
  private readonly top: number;

  constructor(ids: string, top: number) {
    this.ids = ids;
    this.top = top;
  }

  draw(item: PictureItem, from: Vec2): string[] {
    switch (item.kind) {
      case 'curve':
        return item.pieces.length === 0
          ? []
          : [
              `<path d="${this.path(item.pieces, from, false)}" fill="none"${strokeOf(item.stroke)}/>`,
            ];
      case 'area':
        return [
          `<path d="${item.rims.map((rim) => this.path(rim, from, true)).join('')}" fill-rule="evenodd"${fillOf(item.fill)}${strokeOf(item.stroke)}/>`,
        ];
      case 'round': {
        const [x, y] = this.at(item.centre, from);
        return [
          `<circle cx="${x}" cy="${y}" r="${fileNumber(item.radiusMm)}"${fillOf(item.fill)}${strokeOf(item.stroke)}/>`,
        ];
      }
      case 'label':
        return [this.label(item, from)];
      case 'group':
        return this.group(item, from);
    }
  }

  private at([x, y]: Vec2, [dx, dy]: Vec2): Vec2 {
    return [fileNumber(x + dx), fileNumber(this.top - y - dy)];
  }

  private path(pieces: readonly Piece[], from: Vec2, isClosed: boolean): string {
    const start = pieces[0];
    if (start === undefined) return '';
    const steps = pieces.map((p) => {
      const [x, y] = this.at(p.to, from);
      if (p.bulge === 0) return `L${x} ${y}`;
      const { radius } = arcOf(p.from, p.to, p.bulge);
      const r = radius.toFixed(8);
      return `A${r} ${r} 0 ${Math.abs(p.bulge) > 1 ? 1 : 0} ${p.bulge > 0 ? 0 : 1} ${x} ${y}`;
    });
    return `M${this.at(start.from, from).join(' ')}${steps.join('')}${isClosed ? 'Z' : ''}`;
  }

  private label(
    { at, sizeMm, text, align = 'left', isBold = false, angleDeg = 0 }: Label,
    from: Vec2,
  ): string {
    const [x, y] = this.at(at, from);
    const anchor = { left: '', middle: ' text-anchor="middle"', right: ' text-anchor="end"' }[
      align
    ];
    const turn = angleDeg === 0 ? '' : ` transform="rotate(${-fileAngle(angleDeg)} ${x} ${y})"`;
    const line = singleLine(text);
    return `<text x="${x}" y="${y}" font-size="${fileNumber(sizeMm)}"${anchor}${isBold ? ' font-weight="bold"' : ''}${asWide(line, sizeMm, isBold)}${turn}>${xmlText(line)}</text>`;
  }

  private group(
    { at, clip, items }: PictureItem & { readonly kind: 'group' },
    from: Vec2,
  ): string[] {
    const origin: Vec2 = [at[0] + from[0], at[1] + from[1]];
    const inner = items.flatMap((item) => this.draw(item, origin));
    if (clip === undefined) return inner;
    this.clips += 1;
    const id = `${this.ids}-${this.clips}`;
    const [x, y] = this.at([clip.minX, clip.maxY], origin);
    const box = `<rect x="${x}" y="${y}" width="${fileNumber(clip.maxX - clip.minX)}" height="${fileNumber(clip.maxY - clip.minY)}"/>`;
    return [
      `<clipPath id="${id}">${box}</clipPath>`,
      `<g clip-path="url(#${id})">`,
      ...inner,
      '</g>',
    ];
  }
}

/**
 * Room for a line was reckoned in Helvetica. Where there is another font its letters are made to fit, or
 * they would run into what stands beside them.
 */
const asWide = (line: string, sizeMm: number, isBold: boolean): string =>
  line.length < 2
    ? ''
    : ` textLength="${fileNumber(textWidthMm(line, sizeMm, isBold))}" lengthAdjust="spacingAndGlyphs"`;

const fillOf = (fill: number | undefined): string =>
  ` fill="${fill === undefined ? 'none' : greyHex(fill)}"`;

const strokeOf = (stroke: Stroke | undefined): string => {
  if (stroke === undefined) return '';
  const { widthMm, dashMm = [], shade = 0 } = stroke;
  const dash = dashMm.length === 0 ? '' : ` stroke-dasharray="${dashMm.map(fileNumber).join(' ')}"`;
  return ` stroke="${greyHex(shade)}" stroke-width="${fileNumber(widthMm)}" stroke-linejoin="round"${dash}`;
};
