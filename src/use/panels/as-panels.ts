import { Document, isMap, visit } from 'yaml';
import { readBuilt } from '../../forms/built.ts';
import { COMMON_INPUTS, type CommonValues } from '../../forms/common.ts';
import { type InputProblem, readInputs } from '../../forms/read.ts';
import type { Built, Piece, Template } from '../../forms/template.ts';
import type { Part } from '../../model/part.ts';
import { asPanels } from '../../panels/as-panels.ts';
import type { Panels } from '../../panels/build.ts';
import type { UseCase } from '../use-case.ts';

/** What a program is told of a part that was written panel by panel. */
export interface AsPanelsResult {
  readonly name: string;
  /** As `make` takes them: the inputs of `panels`. */
  readonly inputs: Readonly<Record<string, unknown>>;
}

export interface AsPanelsRequest {
  readonly template: Template;
  /** As a file or flags give them, by name. */
  readonly inputs: Readonly<Record<string, unknown>>;
  /** What the file is called. */
  readonly file: string;
}

/**
 * The part of any family described panel by panel, as a file of inputs of `panels` that make the
 * same blank to the last byte: to be carried on from where its family ends.
 */
export function partAsPanels({
  template,
  inputs: raw,
  file,
}: AsPanelsRequest): UseCase<AsPanelsResult> {
  if (template.stock === 'tube')
    return {
      ok: false,
      problems: [
        {
          input: 'family',
          given: `${template.family}, a family of tubes`,
          allowed: 'a family of sheet: a tube has no panels',
        },
      ],
    };
  const read = readInputs(template, raw);
  if (!read.ok) return read;
  if (read.values.rightDiffers.length > 0)
    return no('two hands that differ', 'leave out rightDiffers, or give the right part by itself');
  // Folds that are welded or slit are said in panels in the same words: the part is described whole.
  const values: CommonValues & typeof read.values = {
    ...read.values,
    weldAt: [],
    slitAt: [],
    lapAt: [],
    tabAt: [],
    hemAt: [],
  };
  const readBack = readBuilt(template.build(values), values);
  if (!readBack.ok) return readBack;
  const described = panelsOf(readBack.built, values);
  if (!described.ok) return described;
  const inputs = { ...commonOf(template, raw, values, described.measure), ...described.panels };
  const mark = `# ${values.name}, panel by panel`;
  const text = yamlOf({ family: 'panels', ...inputs });
  return {
    ok: true,
    result: { name: values.name, inputs },
    findings: [],
    files: [{ name: file, contents: `${mark}\n${text}`, mark }],
  };
}

/** A point of an outline on one line each. */
const yamlOf = (value: unknown): string => {
  const document = new Document(value);
  visit(document, {
    Map: (_, node) => {
      if (isMap(node) && node.has('x') && node.has('y')) node.flow = true;
    },
  });
  return document.toString({ lineWidth: 0 });
};

type Described =
  | {
      readonly ok: true;
      readonly panels: Readonly<Record<string, unknown>>;
      readonly measure: Part['measure'];
    }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

const panelsOf = ({ part, pieces, findings = [] }: Built, values: CommonValues): Described => {
  const blanks: readonly Pick<Piece, 'id' | 'part' | 'quantity'>[] =
    pieces ?? (part === undefined ? [] : [{ id: '', part }]);
  const [first] = blanks;
  const stop = findings.find(({ severity }) => severity === 'stop');
  if (first === undefined || stop !== undefined)
    return no('a part that its family stops', stop?.message);
  const all: Panels[] = [];
  for (const blank of blanks) {
    const panels = asPanels(blank.part, values);
    if (!panels.ok) return no(`a part whose ${panels.why} the panels cannot say`);
    all.push(panels.panels);
  }
  // Of a blank without folds both ways to measure are the same.
  const { measure } = (blanks.find(({ part: { folds } }) => folds.length > 0) ?? first).part;
  const [only] = all;
  if (pieces === undefined && only !== undefined)
    return { ok: true, measure, panels: withoutEmpty(only) };
  const list = all.map((panels, i) => {
    const { id, quantity = 1, part: blank } = blanks[i] as Piece;
    return {
      name: id,
      ...(quantity !== 1 && { quantity }),
      ...(blank.measure !== measure && { measure: blank.measure }),
      ...withoutEmpty(panels),
    };
  });
  return { ok: true, measure, panels: { pieces: list } };
};

const no = (given: string, mend?: string): Described & { readonly ok: false } => ({
  ok: false,
  problems: [
    {
      input: 'as-panels',
      given,
      allowed: 'a part that could be cut and folded',
      ...(mend !== undefined && { mend }),
    },
  ],
});

const withoutEmpty = (panels: Panels): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    Object.entries(panels).filter(([, value]) => !(Array.isArray(value) && value.length === 0)),
  );

/**
 * The common inputs as they were typed, with what the family takes for granted. Free corners are
 * part of the outlines, but for those of panels that are written by their height.
 */
const commonOf = (
  { defaults = {} }: Template,
  raw: Readonly<Record<string, unknown>>,
  { name }: CommonValues,
  measure: Part['measure'],
): Readonly<Record<string, unknown>> => {
  const typed = Object.keys(COMMON_INPUTS).flatMap((key) => {
    const flag = key.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`);
    const value = raw[key] ?? raw[flag] ?? defaults[key as keyof typeof defaults];
    return value === undefined || key === 'name' || key === 'measure'
      ? []
      : [[key, value] as const];
  });
  return {
    name,
    ...Object.fromEntries(typed),
    ...(measure === 'inside' && { measure }),
  };
};
