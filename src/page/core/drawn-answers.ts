import type { Template } from '../../forms/template.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Shop } from '../../model/shop.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { makeParts } from '../../use/make/make-parts.ts';
import type { MadePart } from '../../use/made-part.ts';
import { prove } from '../../use/prove/prove.ts';
import { sizedFlat } from '../../use/show/part-pictures.ts';
import { familySketches } from '../../use/sketch/family-sketches.ts';
import { sizeDrivers } from '../../use/sketch/size-drivers.ts';
import { inSvg, middleOf } from './flat-answer.ts';
import type { HoleAsk, HoleWays, ProveAsk, ProvedAnswer, SketchAnswer } from './drawn-questions.ts';
import { flatSize, type Screen, SKETCH } from './screen-sizes.ts';

/** A part of the job, and what makes it. */
export interface PartAtWork {
  readonly template: Template;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly shop: Shop;
  readonly parts: readonly MadePart[];
}

/** The letters of a family: on the part itself where there is one, else on the family's example. */
export const sketchAnswer = (template: Template, work: PartAtWork | undefined): SketchAnswer[] => {
  const own = work === undefined ? [] : familySketches(template, SKETCH, work.inputs, work.parts);
  const sketches = own.length > 0 ? own : familySketches(template, SKETCH);
  return sketches.map(({ piece = null, picture, spots, letters }, i) => ({
    piece,
    letters,
    svg: pictureSvg(picture, `sketch-${i}`),
    widthMm: picture.widthMm,
    heightMm: picture.heightMm,
    spots: spots.map(({ of, box }) => inSvg(of, box, picture.heightMm)),
    holes: [],
  }));
};

const remaking =
  ({ template, shop }: PartAtWork) =>
  (inputs: Readonly<Record<string, unknown>>): readonly MadePart[] => {
    const made = makeParts(template, inputs, { shop, foldAt: 'service' });
    return made.ok ? made.parts : [];
  };

export const driversAnswer = (
  work: PartAtWork,
  blank: number,
  screen: Screen,
): Readonly<Record<string, string>> => {
  const one = work.parts[blank];
  return one === undefined
    ? {}
    : sizeDrivers(
        { template: work.template, inputs: work.inputs, remade: remaking(work) },
        one,
        flatSize(screen),
      );
};

/** A hole is moved by each of its figures in turn: whatever they are measured from, it is seen. */
export const holeWaysAnswer = (
  work: PartAtWork,
  { blank, input, entry, more, ...screen }: HoleAsk,
): HoleWays | null => {
  const one = work.parts[blank];
  const at = one === undefined ? undefined : sizedFlat(one, flatSize(screen))?.at;
  const before = placeOfHole(one, input, entry);
  if (at === undefined || before === undefined) return null;
  const [across, along] = more.map((text) => {
    const after = placeOfHole(
      remaking(work)({ ...work.inputs, [input]: text })[blank],
      input,
      entry,
    );
    if (after === undefined) return undefined;
    const [from, to] = [at(before), at(after)];
    return [to[0] - from[0], from[1] - to[1]] as const;
  });
  return across === undefined || along === undefined ? null : { across, along };
};

const placeOfHole = (one: MadePart | undefined, input: string, entry: number): Vec2 | undefined => {
  const name = `${input} ${entry + 1}`;
  const hole = one?.flat?.cutouts.find(({ from }) => from === name || from.startsWith(`${name}.`));
  return hole === undefined ? undefined : middleOf(hole);
};

/** Measures that are told of a file that was proved: the worst. */
const MOST_TOLD = 12;

/** A DXF held to a part; nothing is told where there is none. */
export const provedAnswer = (
  work: PartAtWork | undefined,
  { blank, name, bytes }: ProveAsk,
): ProvedAnswer => {
  if (work === undefined) return { problems: [], findings: [], worstMm: null, measures: [] };
  const one = work.parts[blank];
  const proved = prove({
    dxf: { name, bytes },
    part: { name: 'the part', text: JSON.stringify(one?.result ?? null) },
    fileName: name,
  });
  if (!proved.ok) return { problems: proved.problems, findings: [], worstMm: null, measures: [] };
  const { worstMm, measures } = proved.result;
  const off = ({ askedMm, foundMm }: (typeof measures)[number]): number =>
    foundMm === null ? Infinity : Math.abs(foundMm - askedMm);
  return {
    problems: [],
    findings: proved.result.findings,
    worstMm,
    measures: measures
      .toSorted((a, b) => off(b) - off(a))
      .slice(0, MOST_TOLD)
      .map((m) => ({ name: m.name, asked: m.askedMm, found: m.foundMm })),
  };
};
