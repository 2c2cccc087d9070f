import {
  advise,
  figure,
  type Finding,
  NOISE_MM,
  orInstead,
  orLess,
  orMore,
  orTry,
  refuse,
  type Try,
  without,
  NO_FLAT_MM,
} from '../../src/template.ts';
import { notchText } from './outline.ts';
import { sideText } from './sizes.ts';
import { type Inset, setback } from './return-insets.ts';
import type { StrutBrace } from './inputs.ts';

/** Name in findings of the edge along which the return is folded: the side, with what cuts it. */
const cutSide = (
  v: StrutBrace,
): { readonly called: string; readonly inputs: readonly string[] } => {
  const cuts = [
    ...(v.notch === undefined ? [] : [notchText(v)]),
    ...(v.crease === undefined ? [] : ['crease']),
  ];
  return {
    called: `return ${v.return === undefined ? '' : sideText(v.return)}${cuts.length === 0 ? '' : ` beside ${cuts.join(' and ')}`}`,
    inputs: [
      'return',
      ...(v.notch === undefined ? [] : ['notch', 'notchWidth']),
      ...(v.crease === undefined ? [] : ['crease']),
    ],
  };
};

/** Changes to try on a side where a return edge finds no room. */
const roomForReturn = (v: StrutBrace): readonly Try[] => [
  ...(v.notch === undefined ? [] : [{ less: 'notchWidth' }, without('notch')]),
  ...(v.outline === undefined ? ['edge'] : []),
  without('return'),
];

export function returnTooShort(
  v: StrutBrace,
  long: number,
  [start, end]: readonly [Inset, Inset],
  least: number,
): Finding {
  const fits = (long - least) / 2;
  const { called, inputs } = cutSide(v);
  const inset = v.returnInset === undefined ? '' : `, with returnInset ${figure(v.returnInset)},`;
  const what = `${called} has a straight stretch of ${figure(long)} mm to fold, and stops ${figure(start.mm)} and ${figure(end.mm)} mm before its ends${inset} for reliefs and holes, which leaves less than ${figure(least)} mm`;
  const mends =
    v.returnInset !== undefined && fits > 0 && fits < v.returnInset
      ? [orLess('returnInset', fits)]
      : [];
  return orTry(
    orInstead(
      refuse(
        'return-too-short',
        [...inputs, ...(inset === '' ? [] : ['returnInset'])],
        what,
        mends,
      ),
      'choose a longer side',
    ),
    ...roomForReturn(v),
  );
}

/** Finding on a notch that takes the whole side, which is possible. */
export const sideCutAway = (v: StrutBrace): Finding => {
  const { called, inputs } = cutSide(v);
  return orTry(
    orInstead(
      refuse('return-without-side', inputs, `${called} has nothing left of its side to fold`, []),
      'choose another side',
    ),
    ...roomForReturn(v),
  );
};

/**
 * Finding on a return edge that its bend takes up whole, with the height that leaves as much flat
 * as the sheet is thick.
 */
export function heightAllBend(v: StrutBrace): Finding[] {
  const taken = setback(v);
  const largest = v.returnHeight - (v.measure === 'outside' ? 2 : 1) * v.thicknessMm;
  const mends = [
    orMore('returnHeight', taken + v.thicknessMm),
    ...(largest >= 0 ? [orLess('radius', largest)] : []),
  ];
  return v.returnHeight > taken + NO_FLAT_MM
    ? []
    : [
        refuse(
          'leg-too-short',
          ['returnHeight'],
          `returnHeight ${figure(v.returnHeight)} is all bend, since its bend takes ${figure(taken)} mm of it`,
          mends,
        ),
      ];
}

export const reliefNearHole = (insets: readonly Inset[]): readonly Finding[] => {
  const short = insets.filter(({ mm, needMm }) => mm < needMm - NOISE_MM);
  if (short.length === 0) return [];
  const need = Math.max(...short.map(({ needMm }) => needMm));
  const given = figure(short[0]?.mm ?? 0);
  return [
    advise(
      'relief-near-hole',
      ['returnInset'],
      `returnInset ${given} leaves a relief less than two thicknesses of metal to a hole, or less than one to the end of its side`,
      [orMore('returnInset', need), without('returnInset')],
    ),
  ];
};
