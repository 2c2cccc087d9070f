import type { Made } from '../../use/make/make-given.ts';
import { type Printed, printedIn } from '../../text/printed.ts';
import { bendCards, walkedBack } from '../../paper/tube/bend-cards.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import type { MadeTube } from '../../use/made-part.ts';
import { shownTube, tubeMarks, tubePicture } from '../../use/show/tube-pictures.ts';
import { thumbName, toldOfResult } from './blank-answers.ts';
import type { ModelAnswer } from './model-questions.ts';
import { meshSkin } from './model-answers.ts';
import type { BlankAnswer, Questions, StepAnswer } from './questions.ts';
import { flatSize, FOLDED, NARROW_FOLDED, type Screen, STEP, THUMB } from './screen-sizes.ts';

interface ToldOfTube {
  readonly screen: Screen;
  readonly silence?: readonly string[] | undefined;
  readonly hasThumb: boolean;
}

/** All that is told of a made tube, in the place of a blank. */
export const tubeAnswer = (
  one: MadeTube,
  { screen, silence = [], hasThumb }: ToldOfTube,
): BlankAnswer => {
  const { result, tube } = one;
  const print = printedIn(screen.unit);
  const { diameterMm, wallMm, grade } = tube;
  const size = `${print.tape(diameterMm, 2)} x ${print.tape(wallMm, 2)} ${print.word}`;
  return {
    ...toldOfResult(result, silence, print),
    sheet: `${grade.name}, ${size}`,
    stopped: false,
    proofMm: tube.kind === 'bent' ? tube.proofMm : null,
    flat: marksAnswer(one, screen),
    thumb: hasThumb ? thumbOf(one, thumbName(result)) : '',
    steps: tube.kind === 'bent' ? stepsOf(tube, print) : [],
    machine: tube.kind === 'bent' ? (tube.asked.bending.bender ?? null) : null,
    isOfSet: false,
    tube: {
      kind: tube.kind,
      cutLengthMm: tube.cutLengthMm,
      massKg: tube.massKg,
      bends: tube.kind === 'bent' ? tube.sheet.bends.length : 0,
      proof: tube.kind === 'bent' ? walkedBack(tube, print) : '',
    },
  };
};

const thumbOf = (one: MadeTube, id: string): string =>
  pictureSvg(tubePicture(one, THUMB, { isBare: true }), id);

/** The first tube of some, small, as an SVG element; empty where there is none. */
export const firstTube = (made: Made, id: string): string => {
  const [one] = made.ok ? made.tubes : [];
  return one === undefined ? '' : thumbOf(one, id);
};

const marksAnswer = (one: MadeTube, screen: Screen): NonNullable<BlankAnswer['flat']> => {
  const picture = tubeMarks(one, flatSize(screen));
  const { hand, piece } = one.result;
  return {
    svg: pictureSvg(picture, `marks-${hand}-${piece ?? ''}`),
    widthMm: picture.widthMm,
    heightMm: picture.heightMm,
    spots: [],
    holes: [],
  };
};

const stepsOf = (tube: Extract<MadeTube['tube'], { kind: 'bent' }>, print: Printed): StepAnswer[] =>
  bendCards(tube, print, STEP).map(({ title, lines, pictures }, i) => ({
    title,
    lines,
    pictures: pictures.map((one, k) => ({
      title: one.title,
      picture: pictureSvg(one.picture, `bend-${i}-${k}`),
    })),
  }));

/** A tube as a model of one piece without hinges. */
export const tubeModel = ({ tube, result }: MadeTube): ModelAnswer => ({
  pieces: [
    {
      name: result.name,
      root: 'tube',
      pose: { o: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
      order: [],
      panels: [{ id: 'tube', skin: meshSkin(shownTube(tube)) }],
      hinges: [],
    },
  ],
  seams: [],
  letters: [],
});

/** The same as an SVG element, for a browser that draws no solids. */
export const drawnTube = (
  one: MadeTube,
  { blank, from, isNarrow, unit }: Questions['folded']['ask'],
): string =>
  pictureSvg(
    tubePicture(
      one,
      { ...(isNarrow ? NARROW_FOLDED : FOLDED), print: printedIn(unit) },
      from === null ? {} : { from },
    ),
    `tube-${blank}`,
  );
