import { edgesCalled, type Vertex } from '../geometry/loop.ts';
import type { Cutout, FoldSide, Panel, Part } from '../model/part.ts';
import type { CommonValues } from './common.ts';
import type { InputProblem } from './problem.ts';
import type { Built, GivenCutout, GivenPanel, GivenPart, GivenSide } from './template.ts';
import { BUILT, PROMISED } from './built-shape.ts';
import { foldNameProblems } from './named-folds.ts';
import { slitAndWelded } from './welded.ts';

export type ReadBuilt =
  | { readonly ok: true; readonly built: Built }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * What a template's `build` returned, whoever wrote it: every field that is not what it should be
 * is a problem under its name, and fields that may be left out are filled in from the common
 * values.
 */
export function readBuilt(built: unknown, values: CommonValues): ReadBuilt {
  if (built instanceof Promise)
    return {
      ok: false,
      problems: [
        { input: 'template.build', given: 'a promise', allowed: PROMISED, mend: 'leave out async' },
      ],
    };
  const flaws = BUILT(built, '').map(({ at, given, wanted }): InputProblem => ({
    input: at === '' ? 'template.build' : `template.build: ${at}`,
    given,
    allowed: wanted,
  }));
  if (flaws.length > 0) return { ok: false, problems: flaws };
  const whole = asBuilt(built as Built<GivenPart>, values);
  const problem = emptyProblem(whole) ?? pieceProblem(whole);
  const asked = withOwnSeams(whole, values);
  const problems = problem === undefined ? foldNameProblems(whole, asked) : [problem];
  return problems.length === 0
    ? { ok: true, built: slitAndWelded(whole, asked) }
    : { ok: false, problems };
}

/** The same for a value that is known to have the right shape. */
export const wholeBuilt = (built: Built<GivenPart>, values: CommonValues): Built =>
  slitAndWelded(asBuilt(built, values), withOwnSeams(built, values));

/** The values with the seams that the family makes by itself, but for folds asked for otherwise. */
const withOwnSeams = (
  { weldAt: own = [] }: Built<GivenPart>,
  values: CommonValues,
): CommonValues => {
  const { slitAt, lapAt, tabAt, hemAt, weldAt } = values;
  const others = [...slitAt, ...lapAt, ...tabAt, ...hemAt].map((name) => name.split(' on ')[0]);
  const seams = own.filter((name) => !weldAt.includes(name) && !others.includes(name));
  return seams.length === 0 ? values : { ...values, weldAt: [...weldAt, ...seams] };
};

/** What was built, before folds are slit and welded. */
const asBuilt = ({ part, pieces, ...rest }: Built<GivenPart>, values: CommonValues): Built => ({
  ...rest,
  ...(part !== undefined && { part: wholePart(part, values) }),
  ...(pieces !== undefined && {
    pieces: pieces.map((piece) => ({ ...piece, part: wholePart(piece.part, values) })),
  }),
});

/**
 * A part with what its template leaves out, most of it from the common inputs. A relief is as wide
 * as the sheet is thick, and never narrower than the cutter can cut (common practice: 1 to 1.5
 * thicknesses).
 */
export const wholePart = (given: GivenPart, values: CommonValues): Part => {
  const { name, thicknessMm, measure, reliefShape, leastSlotMm, cornerGapMm, insideRadiusMm } =
    values;
  const { corners, wishes, rolled, folds = [], ...own } = given;
  const panels = given.panels.map((panel) => wholePanel(panel, values));
  return {
    name: own.name ?? name,
    thicknessMm: own.thicknessMm ?? thicknessMm,
    measure: own.measure ?? measure,
    root: own.root ?? given.panels[0]?.id ?? '',
    panels,
    folds: folds.map((fold) => ({
      ...fold,
      parent: wholeSide(fold.parent, panels),
      child: wholeSide(fold.child, panels),
      insideRadiusMm: fold.insideRadiusMm ?? insideRadiusMm,
    })),
    relief: own.relief ?? {
      shape: reliefShape,
      widthMm: Math.max(own.thicknessMm ?? thicknessMm, leastSlotMm),
      leastSlotMm,
    },
    cornerGapMm: own.cornerGapMm ?? cornerGapMm,
    ...(corners !== undefined && { corners }),
    ...(wishes !== undefined && { wishes }),
    ...(rolled !== undefined && { rolled }),
  };
};

const wholePanel = (
  { id, outline, cutouts = [], formed }: GivenPanel,
  values: CommonValues,
): Panel => ({
  id,
  ...(formed !== undefined && { formed }),
  outline: outline.map(wholeVertex),
  cutouts: cutouts.map((cutout, i): Cutout => {
    const from = cutout.from ?? `${cutout.kind === 'round' ? 'hole' : 'cut-out'} ${i + 1}`;
    return cutout.kind === 'round'
      ? { ...cutout, from, ...originOf(cutout, from, values) }
      : { ...cutout, from, ...originOf(cutout, from, values), loop: cutout.loop.map(wholeVertex) };
  }),
});

/**
 * The inputs that a hole came from, and which of their entries it is: as its template states, or as
 * its name tells, `holesA 2` being an input and a number.
 */
const originOf = (
  { inputs, number: given }: GivenCutout,
  from: string,
  values: CommonValues,
): Pick<Cutout, 'inputs' | 'number'> => {
  const [name = '', entry] = from.split(' ');
  const isCalled = Object.hasOwn(values, name);
  const own = given ?? (isCalled && /^\d+(?:\.\d+)?$/.test(entry ?? '') ? entry : undefined);
  return {
    inputs: inputs ?? (isCalled ? [name] : []),
    ...(own !== undefined && { number: own }),
  };
};

const wholeVertex = ({ x, y, bulge = 0, edge }: GivenPanel['outline'][number]): Vertex => ({
  x,
  y,
  bulge,
  ...(edge !== undefined && { edge }),
});

/**
 * The number of a named edge on its panel; a name that is not there exactly once stands for no
 * edge.
 */
const wholeSide = ({ edge, ...side }: GivenSide, panels: readonly Panel[]): FoldSide => {
  if (typeof edge === 'number') return { ...side, edge };
  const outline = panels.find((panel) => panel.id === side.panel)?.outline ?? [];
  const [at = NOWHERE, ...more] = edgesCalled(outline, edge);
  return { ...side, edge: more.length > 0 ? NOWHERE : at, called: edge };
};

const NOWHERE = -1;

/** A template that makes nothing has to say why. */
const emptyProblem = ({ part, pieces, tubes, findings = [] }: Built): InputProblem | undefined => {
  if (
    part !== undefined ||
    (pieces !== undefined && pieces.length > 0) ||
    (tubes !== undefined && tubes.length > 0) ||
    findings.some((f) => f.severity === 'stop')
  )
    return undefined;
  return {
    input: 'template.build',
    given: 'neither a part nor pieces',
    allowed: 'a part, or pieces, or findings with a stop that says why there is none',
    mend: 'return { part }, or { findings: [stop(...)] }',
  };
};

/** Pieces need names of their own, since files are named after them. */
const pieceProblem = ({ pieces = [] }: Built): InputProblem | undefined => {
  const bad = pieces.findIndex(
    ({ id }, i) =>
      !/^[a-z\d]+(?:-[a-z\d]+)*$/.test(id) || pieces.findIndex((other) => other.id === id) < i,
  );
  return bad < 0
    ? undefined
    : {
        input: `template.build: pieces[${bad}].id`,
        given: `'${pieces[bad]?.id ?? ''}'`,
        allowed:
          'small letters and figures with hyphens between, such as end-left, unlike that of any other piece',
      };
};
