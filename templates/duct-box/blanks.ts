import { figure, note, warn } from '../../src/template.ts';
import type { Finding } from '../../src/template.ts';
import { netSize } from './net.ts';
import { CORNERS, type Shell, WALLS } from './shell.ts';
import type { DuctBox } from './inputs.ts';

/**
 * The walls that are cut as one blank, in their order from left to right as seen from inside, and
 * the corners that are welded.
 */
export interface Blanks {
  readonly chains: readonly (readonly number[])[];
  readonly seams: readonly boolean[];
  readonly findings: readonly Finding[];
}

type Cut = Exclude<DuctBox['blanks'], 'auto'>;

/** One blank where it fits on the sheet, unless the user asks otherwise. */
export const chooseBlanks = (v: DuctBox, shell: Shell): Blanks => {
  const whole = blanksOf(v, 'whole');
  const cut = v.blanks === 'auto' ? (fits(v, shell, whole) ? 'whole' : 'halves') : v.blanks;
  const blanks = blanksOf(v, cut);
  const halved =
    v.blanks === 'auto' && cut === 'halves'
      ? [
          note(
            'duct-in-halves',
            `In one piece it takes about ${sizeText(v, shell, whole)} of sheet, more than ${sheetText(v)}: it is cut in two halves.`,
          ),
        ]
      : [];
  const large = fits(v, shell, blanks)
    ? []
    : [
        warn(
          'blank-over-sheet',
          `A blank takes about ${sizeText(v, shell, blanks)} of sheet, more than ${sheetText(v)}: ${cut === 'whole' ? 'give blanks halves' : 'give the size of a larger sheet, or make the duct in two lengths'}.`,
        ),
      ];
  return { ...blanks, findings: [...halved, ...large] };
};

const blanksOf = (v: DuctBox, cut: Cut): Omit<Blanks, 'findings'> => {
  const seam = CORNERS.indexOf(v.seam);
  const welded = { whole: [seam], halves: [seam, (seam + 2) % 4], 'top-off': [1, 2] }[cut];
  const seams = CORNERS.map((_, j) => welded.includes(j));
  const chains = welded.map((j) => {
    const chain = [(j + 1) % 4];
    while (seams[chain.at(-1) as number] !== true) chain.push(((chain.at(-1) as number) + 1) % 4);
    return chain;
  });
  return { chains, seams };
};

const sizes = (v: DuctBox, shell: Shell, { chains, seams }: Omit<Blanks, 'findings'>) =>
  chains.map((chain) => netSize(v, shell, seams, chain));

const fits = (v: DuctBox, shell: Shell, blanks: Omit<Blanks, 'findings'>): boolean => {
  const [long, short] = [
    Math.max(v.sheetLength, v.sheetWidth),
    Math.min(v.sheetLength, v.sheetWidth),
  ];
  return sizes(v, shell, blanks).every(
    ([w, h]) => Math.max(w, h) <= long && Math.min(w, h) <= short,
  );
};

const sizeText = (v: DuctBox, shell: Shell, blanks: Omit<Blanks, 'findings'>): string => {
  const [w, h] = sizes(v, shell, blanks).reduce((a, b) => (a[0] * a[1] >= b[0] * b[1] ? a : b));
  return `${figure(w, 0)} x ${figure(h, 0)} mm`;
};

const sheetText = ({ sheetLength, sheetWidth }: DuctBox): string =>
  `the ${figure(sheetLength)} x ${figure(sheetWidth)} of the sheet`;

/** Name of a blank, made from its walls: `left-bottom`. */
export const blankId = (chain: readonly number[]): string =>
  chain.length === 1
    ? (WALLS[chain[0] as number] ?? '')
    : chain.length === 4
      ? 'walls'
      : chain.map((i) => WALLS[i]).join('-');
