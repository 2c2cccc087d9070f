import { cautionText } from '../../data/cautions.ts';
import { anchorsOf } from '../../forms/anchors.ts';
import { describeInputs, inputsJsonSchema, type InputDescription } from '../../forms/read.ts';
import type { Example, Template } from '../../forms/template.ts';
import { onlyText } from '../../forms/when.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { familySketches } from '../../use/sketch/family-sketches.ts';
import type { Console } from '../console.ts';
import { EXIT } from '../failure.ts';
import { familyOf, FAMILY_FLAGS } from '../family.ts';
import { exampleCommand, isTyped } from '../example-command.ts';
import { holePictures } from '../hole-picture.ts';
import { flagsOf } from '../flags-of.ts';
import { wrapWords } from '../terminal.ts';
import type { RunCommand } from './index.ts';

/**
 * `describe FAMILY`: its inputs, a drawing, cautions and examples. JSON:
 * `{"family","summary","schema","examples": [{"title","inputs","anchors"}],"sketches":
 * [{"piece","letters","svg"}]}`; `inputs` are full sets with defaults filled in, `anchors` tell what
 * each input measures on that part, and sketches show the first example with the letters of its
 * measures.
 */
export const describe = async (
  template: Template,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  const inputs = describeInputs(template);
  if (json) {
    const examples = template.examples.map(({ title, inputs: given }) => ({
      title,
      inputs: fullSet(inputs, given),
      anchors: anchorsOf(template, given),
    }));
    out(
      JSON.stringify({
        family: template.family,
        summary: template.summary,
        schema: inputsJsonSchema(template),
        examples,
        sketches: familySketches(template, SKETCH).map(({ piece = null, letters, picture }, i) => ({
          piece,
          letters,
          svg: pictureSvg(picture, `sketch-${i}`),
        })),
      }),
    );
    return EXIT.made;
  }
  out(wrapWords(`${template.family}: ${template.summary}`, ''));
  out(template.sketch.replace(/\s+$/, ''));
  out(
    `\n${wrapWords('Inputs of this family (lengths in mm unless a unit is given: 60, 2 1/2", 120-2*3; angles in degrees)', '')}`,
  );
  for (const text of groupTexts(inputs.filter((i) => !i.common))) out(text);
  out('\nInputs of every family');
  for (const text of groupTexts(inputs.filter((i) => i.common))) out(text);
  for (const text of inputs.flatMap(keyTexts)) out(text);
  const notation = new Set(inputs.flatMap((input) => input.notation ?? []));
  const pictures = holePictures(inputs);
  if (pictures.length > 0)
    out(
      `\n${wrapWords('Holes in short, and what their figures are measured from', '')}\n${pictures.join('\n\n')}`,
    );
  if (notation.size > 0) out(`\n${wrapWords([...notation].join(' '), '')}`);
  if (template.cautions.length > 0)
    out(
      `\nCautions\n${template.cautions.map((id) => wrapWords(cautionText(id), '  ')).join('\n')}`,
    );
  out('\nExamples');
  for (const example of template.examples)
    out(`${wrapWords(example.title, '  ')}\n${await exampleText(template, example)}`);
  return EXIT.made;
};

/** Size of a sketch, mm. */
const SKETCH = { widthMm: 110, heightMm: 84 };

/** The keys of the maps that a file may give for an input. */
const keyTexts = ({ name, keys = {} }: InputDescription): string[] => {
  const entries = Object.entries(keys);
  if (entries.length === 0) return [];
  const width = Math.max(...entries.map(([key]) => key.length));
  const lines = entries.map(([key, about]) => {
    const [first = '', ...more] = wrapWords(about, ' '.repeat(width + 4)).split('\n');
    return [`  ${key.padEnd(width)}${first.slice(width + 2)}`, ...more].join('\n');
  });
  return [`\nKeys of ${name} in a file\n${lines.join('\n')}`];
};

/** An example as a command line, or as a file where something of it is a map. */
const exampleText = async (template: Template, example: Example): Promise<string> => {
  if (isTyped(example)) return exampleCommand('make', template, example);
  const { stringify } = await import('yaml');
  const text = stringify({ family: template.family, ...example.inputs }, { lineWidth: 74 });
  return text.trimEnd().replace(/^/gm, '    ');
};

/** Inputs under the headings of their blocks in the form. */
const groupTexts = (inputs: readonly InputDescription[]): string[] =>
  inputs.flatMap((input, i) =>
    input.group === undefined || input.group === inputs[i - 1]?.group
      ? [inputText(input)]
      : [`\n${input.group}`, inputText(input)],
  );

/** The given inputs, and every default that is fixed. */
const fullSet = (
  inputs: readonly InputDescription[],
  given: Example['inputs'],
): Record<string, unknown> => {
  const defaults = inputs
    .filter((i) => i.default !== undefined)
    .map((i) => [i.name, i.default] as const);
  return { ...Object.fromEntries(defaults), ...given };
};

const inputText = (input: InputDescription): string => {
  const about = `${input.about} Allowed: ${input.allowed}. ${absent(input)}${only(input)}`;
  return `  --${input.flag}\n${wrapWords(about, '      ')}`;
};

const only = ({ when }: InputDescription): string =>
  when === undefined ? '' : ` ${onlyText(when)}`;

const absent = (input: InputDescription): string => {
  if (input.default !== undefined && input.default !== '') return `Default: ${input.default}.`;
  if (input.otherwise !== undefined) return `Left out: ${input.otherwise}.`;
  return input.required ? `Must be given, such as ${input.example}.` : 'May be left out.';
};

export const run: RunCommand = async (args, console) => {
  const { template: templateFlag } = FAMILY_FLAGS;
  const named = await familyOf(args, console, { template: templateFlag });
  if (named === undefined) return EXIT.made;
  const flags = await flagsOf(args, console, {
    usage: 'describe FAMILY',
    flags: { template: templateFlag },
    words: named.words,
  });
  return flags === undefined
    ? EXIT.made
    : describe(named.template, flags['json'] === true, console);
};
