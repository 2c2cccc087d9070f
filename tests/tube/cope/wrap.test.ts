import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeDxf } from '../../../src/dxf/write/dxf.ts';
import { loopExtents } from '../../../src/geometry/extents.ts';
import { pointGap } from '../../../src/geometry/gap.ts';
import { wrapCardPages } from '../../../src/paper/tube/wrap-card.ts';
import { writePdf } from '../../../src/paper/write/pdf.ts';
import { placesRound } from '../../../src/tube/cope/cope.ts';
import {
  type Coped,
  type CopedAsked,
  copedTube,
  mirroredAsk,
} from '../../../src/tube/cope/coped-tube.ts';
import { wrapOf } from '../../../src/tube/cope/wrap.ts';
import { tempFolder } from '../../helpers/command.ts';
import { ezdxfAvailable, readWithEzdxf } from '../../helpers/ezdxf.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler, inkOf } from '../../helpers/poppler.ts';
import { published } from '../../helpers/published.ts';

const ASKED: CopedAsked = {
  tube: { diameterMm: 38.1, wallMm: 2 },
  seat: { kind: 'header', diameterMm: 48.3, angleDeg: 60, offsetMm: 3 },
  lengthMm: 400,
  hasKnife: false,
  hasHeaderHole: false,
  paperMm: 0.1,
};

const made = (more: Partial<CopedAsked> = {}): Coped => {
  const result = copedTube({ ...ASKED, ...more });
  if (!result.ok) throw new Error(result.flaw.kind);
  return result.coped;
};

describe('the pattern', () => {
  it('is as long as the published one, over the paper', () => {
    const { given, expect: asked, tolerance } = published('cope', 'wrap-length');
    const { OD = 0, paper = 0 } = given as Record<string, number>;
    const length = (paperMm: number): number =>
      wrapOf({ diameterMm: OD, paperMm, alongMm: () => 10 }).lengthMm;
    expect(Math.abs(length(paper) - (asked['wrap'] as number))).toBeLessThan(tolerance);
    expect(Math.abs(length(0) - (asked['bare'] as number))).toBeLessThan(tolerance);
  });

  it('has the curve as arcs within 0.01 mm, corners and all', () => {
    for (const seat of [
      ASKED.seat,
      // Equal tubes: the outside has two corners.
      { kind: 'header', diameterMm: 38.1, angleDeg: 45, offsetMm: 0 } as const,
    ]) {
      const { ends } = made({ seat });
      const [end] = ends;
      if (end === undefined) throw new Error('no end');
      const { wrap, cope } = end;
      for (const deg of placesRound(720))
        expect(pointGap([wrap.xOf(deg - 180), cope.fitMm(deg - 180)], wrap.outline)).toBeLessThan(
          0.01,
        );
      expect(wrap.outline.length).toBeLessThan(200);
      // The two edges that are brought together are equally long.
      const [left, right] = [wrap.outline[0], wrap.outline.at(-3)];
      expect(left?.y).toBeCloseTo(right?.y ?? NaN, 9);
    }
  });

  it('turned over it is that of the other hand', () => {
    const [one, other] = [made(), made(mirroredAsk(ASKED))];
    for (const deg of placesRound(36))
      expect(other.ends[0]?.cope.fitMm(deg)).toBeCloseTo(one.ends[0]?.cope.fitMm(-deg) ?? NaN, 6);
  });
});

describe('the drawing', () => {
  const both = {
    other: { seat: { kind: 'plate', angleDeg: 45 } as const, clockDeg: 90 },
    hasKnife: true,
    hasHeaderHole: true,
  };

  it('lies right of and above its origin, each pattern beside the others', () => {
    const { drawing, widthMm, heightMm } = made(both).patterns('stay');
    const boxes = drawing.items.flatMap((item) =>
      item.kind === 'loop' && item.role === 'outline' ? [loopExtents(item.loop)] : [],
    );
    expect(boxes).toHaveLength(3);
    boxes.forEach((box, i) => {
      expect(box?.minX).toBeGreaterThanOrEqual(-1e-9);
      expect(box?.maxX).toBeLessThanOrEqual(widthMm + 1e-9);
      expect(box?.maxY).toBeLessThanOrEqual(heightMm + 1e-9);
      expect(box?.minY).toBeGreaterThan((boxes[i - 1]?.maxY ?? -1) + 0.5);
    });
  });

  it('has the hole in the header beside its line on the side that the branch is offset to', () => {
    const { drawing } = made({ hasHeaderHole: true }).patterns('stay');
    const cross = drawing.items.flatMap((item) => (item.kind === 'line' ? [item] : [])).at(-2);
    const hole = drawing.items.find((item) => item.kind === 'loop' && item.role === 'hole');
    if (hole?.kind !== 'loop' || cross === undefined) throw new Error('no hole');
    const box = loopExtents(hole.loop);
    // Seen from outside, with the header's acute side to the right, up is towards the branch's
    // generator at 90 degrees, where the branch passes 3 beside.
    const middle = ((box?.minY ?? 0) + (box?.maxY ?? 0)) / 2 - cross.from[1];
    expect(middle).toBeGreaterThan(2.5);
    expect(middle).toBeLessThan(5);
  });

  it('bears both names, the node, the waste side, and 0 degrees of either end', () => {
    const texts = made(both)
      .patterns('stay')
      .drawing.items.flatMap((i) => (i.kind === 'text' ? [i.text] : []));
    for (const text of [
      'stay end 1',
      'stay end 2',
      'on 48.3 at 60 deg, 3 beside',
      'on plate at 45 deg',
      'edge 70 mm from node',
      'waste',
      '0 acute side',
      '0 of the other end',
      '180',
      'hole for stay',
    ])
      expect(texts).toContain(text);
  });

  it('is read by a program of somebody else with a closed outline', (ctx) => {
    needsOutside(ctx, 'ezdxf', ezdxfAvailable);
    const { patterns, ends } = made();
    const { drawing } = patterns('stay');
    const [read] = readWithEzdxf([writeDxf(drawing, { version: 'r12', cutOnly: false })]);
    const [outline] = read?.entities.filter((e) => e.type === 'POLYLINE') ?? [];
    if (outline?.type !== 'POLYLINE') throw new Error('no outline');
    expect(outline.closed).toBe(true);
    const xs = outline.vertices.map(({ x }) => x);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(ends[0]?.wrap.lengthMm ?? NaN, 3);
  });
});

describe('the card', () => {
  it('measures as it should in the PDF, edge to edge and down to the curve', (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const { patterns, ends } = made();
    const pages = wrapCardPages({
      ...patterns('stay'),
      title: 'stay on 48.3',
      about: '1 off',
      paper: 'a4',
      paperMark: { part: 'stay', file: 'stay.dxf', sha: 'abc' },
      cautions: ['hot work'],
    });
    const file = join(tempFolder(), 'wrap.pdf');
    writeFileSync(file, writePdf(pages, { title: 'wrap', mark: 'mark' }));
    expect(pages).toHaveLength(1);
    // 254 dots an inch are 10 a millimetre.
    const ink = inkOf(file, 1, 254);
    const wrap = ends[0]?.wrap;
    if (wrap === undefined) throw new Error('no wrap');
    const drawn = ink.box({ left: 300, top: 300, right: 1900, bottom: 2400 });
    if (drawn === undefined) throw new Error('nothing drawn');
    // Its lines are 0.5 mm wide: half of that at either edge.
    expect(Math.abs(drawn.right - drawn.left - (wrap.lengthMm * 10 + 5))).toBeLessThanOrEqual(2);
    // The curve at five places, from the straight edge down.
    for (const deg of [-150, -60, 30, 100, 170]) {
      const x = Math.round(drawn.left + 2.5 + wrap.xOf(deg) * 10);
      const column = ink.box({ left: x, right: x, top: drawn.top + 60, bottom: drawn.bottom });
      const mm = ((column?.bottom ?? 0) - drawn.top - 2.5) / 10;
      expect(Math.abs(mm - (wrap.edgeMm - (ends[0]?.cope.fitMm(deg) ?? 0)))).toBeLessThan(0.6);
    }
    const text = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    for (const word of [
      'stay on 48.3',
      '100 mm',
      'edge 70 mm from node',
      'wrong scale',
      'hot work',
    ])
      expect(text).toContain(word);
  });
});

describe('what cannot be cut', () => {
  it('names the end', () => {
    const other = { seat: { kind: 'plate', angleDeg: 5 } as const, clockDeg: 0 };
    const result = copedTube({ ...ASKED, other });
    expect(result.ok ? 'made' : [result.end, result.flaw.kind]).toEqual([1, 'angle']);
    const short = copedTube({ ...ASKED, lengthMm: 20 });
    expect(short.ok ? 'made' : short.flaw.kind).toBe('ends-meet');
  });
});
