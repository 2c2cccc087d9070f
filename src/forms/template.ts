import type { CautionId } from '../data/cautions.ts';
import type { Finding } from '../model/finding.ts';
import type { Vertex } from '../geometry/loop.ts';
import type { Cutout, Fold, FoldSide, Panel, Part } from '../model/part.ts';
import type { Standing } from '../model/standing.ts';
import type { Report } from '../contract/report.ts';
import type { Bender } from '../model/bender.ts';
import type { Schematic } from '../model/schematic.ts';
import type { TubePiece } from '../tube/tube-part.ts';
import type { COMMON_INPUTS, CommonValues } from './common.ts';
import type { Field, ValueOf } from './field.ts';
import type { InputProblem } from './problem.ts';
import type { When } from './when.ts';

/** The inputs a family adds to the common ones; each field made by a function of `fields.ts`. */
export type OwnInputs = Readonly<Record<string, Field>>;

/**
 * What `build` receives: the family's own inputs, read and in mm and degrees, beside the common
 * ones.
 */
export type TemplateValues<Own extends OwnInputs> = ReadValues<Own> & {
  /** Those of the other hand, where both are made and the right part differs from the left one. */
  readonly otherHand?: ReadValues<Own> | undefined;
};

/** The values of a family's own inputs. */
export type OwnValues<Own extends OwnInputs> = {
  readonly [K in keyof Own]: ValueOf<Own[K]>;
};

type ReadValues<Own extends OwnInputs> = OwnValues<Own> & CommonValues;

/** What a family of tubes is asked beside its own inputs, and what it is told of the shop. */
export interface TubeCommon extends Pick<CommonValues, 'name' | 'hand' | 'quantity'> {
  /** The shop's benders, in the order of preference. */
  readonly benders: readonly Bender[];
}

/** What `build` of a family of tubes receives. */
export type TubeValues<Own extends OwnInputs> = OwnValues<Own> & TubeCommon;

/**
 * A full set of inputs that makes a sensible part; also what `describe` shows and the tests run.
 */
export interface Example {
  readonly title: string;
  readonly inputs: Readonly<Record<string, unknown>>;
}

/** A `T` of which every property may be left out, or be `undefined`. */
type Maybe<T> = { readonly [K in keyof T]?: T[K] | undefined };

/** A vertex; without a bulge it begins a straight line. `edge` names the edge that begins there. */
export type GivenVertex = Pick<Vertex, 'x' | 'y'> & Maybe<Pick<Vertex, 'bulge' | 'edge'>>;

type GivenLoop = readonly GivenVertex[];

/** A hole or cut-out; `from` is what messages call it. */
export type GivenCutout =
  | (Omit<Extract<Cutout, { kind: 'round' }>, 'from'> & { readonly from?: string | undefined })
  | (Omit<Extract<Cutout, { kind: 'loop' }>, 'from' | 'loop'> & {
      readonly from?: string | undefined;
      readonly loop: GivenLoop;
    });

export interface GivenPanel extends Pick<Panel, 'id' | 'formed'> {
  readonly outline: GivenLoop;
  readonly cutouts?: readonly GivenCutout[] | undefined;
}

/** A side of a fold: its edge by the name that the panel's outline gives it, or by its number. */
export type GivenSide = Omit<FoldSide, 'edge'> & { readonly edge: number | string };

/** A fold; its inside radius is that of the common inputs where it has none of its own. */
export type GivenFold = Omit<Fold, 'parent' | 'child' | 'insideRadiusMm'> & {
  readonly parent: GivenSide;
  readonly child: GivenSide;
} & Maybe<Pick<Fold, 'insideRadiusMm'>>;

/**
 * A part as a template may give it: its panels, and whatever differs from the common inputs. The
 * first panel is the root, unless `root` names another.
 */
export interface GivenPart extends Maybe<Omit<Part, 'panels' | 'folds'>> {
  readonly panels: readonly GivenPanel[];
  readonly folds?: readonly GivenFold[] | undefined;
}

/**
 * What these inputs make, or the findings that say why they make nothing. A template may give its
 * parts as `GivenPart`; made whole they are `Part`s.
 */
export interface Built<P extends GivenPart = Part> {
  /** The part of a family that makes one blank. */
  readonly part?: P;
  /** The blanks of a family that makes several to be joined afterwards; it gives no `part`. */
  readonly pieces?: readonly Piece<P>[];
  /** The tubes of a family of tubes, which has neither a part nor pieces. */
  readonly tubes?: readonly TubePiece[];
  /** Folds that the family itself makes weld seams between pieces, by the names of `weldAt`. */
  readonly weldAt?: readonly string[];
  readonly findings?: readonly Finding[];
  readonly report?: Report;
}

/** One of several blanks. */
export interface Piece<P extends GivenPart = Part> {
  /**
   * Name in lower case with hyphens, unique within the family's pieces: `end-left`. It follows the
   * part's name.
   */
  readonly id: string;
  readonly part: P;
  /** How many of it one set takes; 1 when left out. */
  readonly quantity?: number;
  /**
   * Where it stands in what the pieces are joined to. Where each piece says so, there are papers
   * and a model of the whole.
   */
  readonly standing?: Standing;
}

/** A part family: one module under templates/ whose default export this is. */
export interface Template<Own extends OwnInputs = OwnInputs> {
  /** Name in lower case with hyphens; the same as the file's name. */
  readonly family: string;
  /** One line for `list`. */
  readonly summary: string;
  /** A small drawing in text that shows which input is which length. At most 72 columns. */
  readonly sketch: string;
  /**
   * What its parts are cut of; sheet when left out. A family of tubes is asked nothing about sheet:
   * its own inputs say what tube it is, `material` and `wall` among them.
   */
  readonly stock?: 'tube';
  /** Pictures of what is asked and no piece by itself shows, for values that were read. */
  schematics?(values: TubeValues<Own>): readonly Schematic[];
  readonly inputs: Own;
  /** Defaults of common inputs that are this family's own. */
  readonly defaults?: Readonly<Partial<Record<keyof typeof COMMON_INPUTS, string | number>>>;
  /**
   * Conditions under which a common input has a meaning in this family, where that is not always.
   */
  readonly when?: Readonly<Partial<Record<keyof typeof COMMON_INPUTS, When>>>;
  /**
   * What is wrong with inputs together, each being what it may be by itself: lengths that name each
   * other in a circle. A method, as `build` is.
   */
  problems?(values: TemplateValues<Own>): readonly InputProblem[];
  readonly cautions: readonly CautionId[];
  readonly examples: readonly Example[];
  /**
   * This is a method, so that TypeScript takes any template where one is known by its schema only:
   * `readInputs` gives it everything that its schema promises.
   */
  build(values: TemplateValues<Own>): Built<GivenPart>;
}

/** A template as it is written: a drawing, cautions and examples may be left out. */
export interface TemplateDraft<Own extends OwnInputs>
  extends
    Pick<Template<Own>, 'family' | 'summary' | 'inputs' | 'defaults' | 'when'>,
    Maybe<Pick<Template<Own>, 'sketch' | 'cautions' | 'examples'>> {
  schematics?(values: OwnValues<Own>): readonly Schematic[];
  problems?(values: TemplateValues<Own>): readonly InputProblem[];
  build(values: TemplateValues<Own>): Built<GivenPart>;
}

/** A family of tubes as it is written. */
export interface TubeDraft<Own extends OwnInputs>
  extends
    Pick<Template<Own>, 'family' | 'summary' | 'inputs'>,
    Maybe<Pick<Template<Own>, 'sketch' | 'cautions' | 'examples'>> {
  schematics?(values: TubeValues<Own>): readonly Schematic[];
  build(values: TubeValues<Own>): Pick<Built, 'tubes' | 'findings' | 'report'>;
}

/** Makes a template of a family of tubes from its draft. */
export const defineTubes = <const Own extends OwnInputs>(draft: TubeDraft<Own>): Template<Own> => {
  const { sketch = '', cautions = [], examples = [] } = draft;
  return {
    ...draft,
    stock: 'tube',
    sketch,
    cautions,
    examples,
    // What tubes are told of their shop is put into the values when they are made by one.
    build: (values) => draft.build({ benders: [], ...values } as unknown as TubeValues<Own>),
  };
};

/** Makes a template from its draft, and keeps the types of `inputs` for `build`. */
export const defineTemplate = <const Own extends OwnInputs>(
  draft: TemplateDraft<Own>,
): Template<Own> => {
  const { sketch = '', cautions = [], examples = [] } = draft;
  return { ...draft, sketch, cautions, examples };
};
