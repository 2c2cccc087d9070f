import { TORCH } from '../../data/welding.ts';
import type { TableBlock } from '../../paper/sheet/content.ts';
import { figure } from '../../text/figures.ts';
import type { Printed } from '../../text/printed.ts';
import type { MadeSet } from './assembled.ts';
import {
  accessText,
  betweenText,
  gapText,
  kindText,
  stretchesText,
  type ReachedWeld,
} from './assembly-words.ts';

const word = (name: string) => ({ name, isText: true });

/** Every seam with what a welder asks of it. */
export const weldTable = (welds: readonly ReachedWeld[], print: Printed): TableBlock => ({
  kind: 'table',
  title: 'Seams, in the order in which they are welded',
  columns: [
    { name: 'Seam', isBig: true, isText: true },
    word('Between'),
    word('Joint'),
    { name: `Length ${print.word}`, isBig: true },
    word(`Stretches ${print.word}`),
    { name: `Gap ${print.word}` },
    word('Welded from'),
  ],
  rows: welds.map((weld) => [
    weld.letter,
    betweenText(weld),
    kindText(weld.kind),
    print.tape(weld.lengthMm, 0),
    stretchesText(weld, print),
    gapText(weld.gapMm, print),
    accessText(weld),
  ]),
  captions: [
    'Lengths of the joint, whether it is welded all along or in runs: how much a joint needs is for whoever answers for its strength. Of a lap one edge is counted. A tooth in its slot is welded over from behind.',
    `Reach is that of a straight torch with a nozzle ${figure(TORCH.nozzleMm.value)} mm across, while those pieces stand that are joined before; holes for fittings are no way in.`,
  ],
});

/** What one set is welded of. */
export const pieceTable = ({ parts }: MadeSet, print: Printed): TableBlock => ({
  kind: 'table',
  title: 'Pieces of one set',
  columns: [
    { name: 'Piece', isBig: true, isText: true },
    { name: 'Off', isBig: true },
    word('Cut file'),
    word(`Blank ${print.word}`),
    { name: 'Folds' },
    { name: 'Mass kg' },
  ],
  rows: parts.map(({ result, base, standing }) => [
    result.piece ?? result.name,
    String(standing?.poses.length ?? 1),
    `${base}.dxf`,
    `${print.tape(result.blank.widthMm, 1)} x ${print.tape(result.blank.heightMm, 1)}`,
    String(result.bends.length),
    figure(result.blank.massKg, 3),
  ]),
});
