import { cautionText } from '../../data/cautions.ts';
import { describeInputs, inputsJsonSchema, type InputDescription } from '../../input/read.ts';
import type { Example, Template } from '../../input/template.ts';
import type { Console } from '../console.ts';
import { EXIT } from '../failure.ts';
import { familyOf, FAMILY_FLAGS } from '../family.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

/**
 * `describe FAMILY`: its inputs, a drawing, cautions and examples. JSON: `{"family","summary","schema","examples":
 * [{"title","inputs"}]}`; `inputs` are full sets, defaults filled in.
 */
export const describe = (template: Template, json: boolean, { out }: Console): number => {
  const inputs = describeInputs(template);
  if (json) {
    const examples = template.examples.map(({ title, inputs: given }) => ({ title, inputs: fullSet(inputs, given) }));
    out(JSON.stringify({ family: template.family, summary: template.summary, schema: inputsJsonSchema(template), examples }));
    return EXIT.made;
  }
  out(`${template.family}: ${template.summary}`);
  out(template.sketch.replace(/\s+$/, ''));
  out('\nInputs of this family (lengths in mm unless a unit is given: 60, 2 1/2", 120-2*3; angles in degrees)');
  for (const input of inputs.filter((i) => !i.common)) out(inputText(input));
  out('\nInputs of every family');
  for (const input of inputs.filter((i) => i.common)) out(inputText(input));
  if (template.cautions.length > 0) out(`\nCautions\n${template.cautions.map((id) => wrapped(cautionText(id), '  ')).join('\n')}`);
  out('\nExamples');
  for (const example of template.examples) out(`  ${example.title}\n${exampleCommand(template.family, example)}`);
  return EXIT.made;
};

/** What was given, and every default that is fixed. */
const fullSet = (inputs: readonly InputDescription[], given: Example['inputs']): Record<string, unknown> => {
  const defaults = inputs.filter((i) => i.default !== undefined).map((i) => [i.name, i.default] as const);
  return { ...Object.fromEntries(defaults), ...given };
};

const inputText = (input: InputDescription): string => {
  const about = `${input.about} Allowed: ${input.allowed}. ${absent(input)}`;
  return `  --${input.flag}\n${wrapped(about, '      ')}`;
};

const absent = (input: InputDescription): string => {
  if (input.default !== undefined && input.default !== '') return `Default: ${input.default}.`;
  if (input.otherwise !== undefined) return `Left out: ${input.otherwise}.`;
  return input.required ? `Must be given, such as ${input.example}.` : 'May be left out.';
};

/** Lines of at most 78 columns. */
const wrapped = (text: string, indent: string): string => {
  const lines: string[] = [];
  let line = indent;
  for (const word of text.split(' ')) {
    if (line.length + word.length > 78 && line !== indent) {
      lines.push(line.trimEnd());
      line = indent;
    }
    line += `${word} `;
  }
  return [...lines, line.trimEnd()].join('\n');
};

/** The command that makes an example; it works when pasted into a shell. */
export const exampleCommand = (family: string, { inputs }: Example): string => {
  const flags = Object.entries(inputs).map(([name, value]) => `--${name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)} ${quoted(valueText(value))}`);
  return wrappedCommand([`blankwright make ${family}`, ...flags]);
};

const valueText = (value: unknown): string =>
  Array.isArray(value) ? value.map((v: unknown) => (typeof v === 'object' && v !== null ? Object.values(v).map(String).join(',') : String(v))).join(';') : String(value);

const quoted = (text: string): string => (/^[\w.,:/+-]+$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`);

const wrappedCommand = (words: readonly string[]): string => {
  const lines: string[] = [];
  let line = '   ';
  for (const word of words) {
    if (line.length + word.length > 74 && line.trim() !== '') {
      lines.push(`${line} \\`);
      line = '     ';
    }
    line += ` ${word}`;
  }
  return [...lines, line].join('\n');
};

export const run: RunCommand = async (args, console) => {
  const { template: templateFlag } = FAMILY_FLAGS;
  const named = await familyOf(args, console, {});
  if (named === undefined) return EXIT.made;
  const flags = await flagsOf(args, console, { usage: 'describe FAMILY', flags: { template: templateFlag }, words: named.words });
  return flags === undefined ? EXIT.made : describe(named.template, flags['json'] === true, console);
};
