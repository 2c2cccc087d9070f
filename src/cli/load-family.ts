import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { FAMILIES } from '../../templates/index.ts';
import { CAUTIONS } from '../data/cautions.ts';
import type { Template } from '../input/template.ts';
import { shown } from '../input/given.ts';
import { describeInputs } from '../input/read.ts';
import { nearest } from '../nearest.ts';
import type { ImportModule } from './console.ts';
import { WrongInput } from './failure.ts';

/** The template of a family of the catalogue; `where` says behind its name where it was given. */
export const loadFamily = async (family: string, where = ''): Promise<Template> => {
  const load = FAMILIES.get(family);
  if (load !== undefined) return (await load()).default;
  const names = [...FAMILIES.keys()];
  const meant = nearest(family, names);
  const called = meant === undefined ? await summedUpBy(family) : [meant];
  throw new WrongInput([
    { input: 'family', given: `'${family}'${where}`, allowed: names.join(', '), mend: called.length === 0 ? 'see blankwright list' : `did you mean ${called.join(' or ')}?` },
  ]);
};

/** Families whose line in the list has all the words of a name: a shelf bracket is a bracket-gusset. */
const summedUpBy = async (name: string): Promise<string[]> => {
  const words = name.toLowerCase().split(/[^a-z]+/).filter((word) => word.length > 2);
  const families = await Promise.all([...FAMILIES.values()].map(async (load) => (await load()).default));
  const found = families.filter(({ summary }) => words.length > 0 && words.every((word) => summary.toLowerCase().includes(word)));
  return found.slice(0, MOST_MEANT).map(({ family }) => family);
};

const MOST_MEANT = 3;

const refuse = (given: string, mend: string): never => {
  throw new WrongInput([{ input: 'template', given, allowed: 'a JavaScript module whose default export is made by defineTemplate of blankwright/template', mend }]);
};

/** A template of the user's own. This runs the code in the file. */
export const loadTemplateFile = async (path: string, importModule: ImportModule): Promise<Template> => {
  let module: { readonly default?: unknown };
  try {
    module = (await importModule(pathToFileURL(resolve(path)).href)) as { readonly default?: unknown };
  } catch (error) {
    return refuse(path, `it cannot be loaded: ${firstLine(error)}`);
  }
  const { default: template } = module;
  const flaw = flawOf(template);
  if (flaw !== undefined) return refuse(path, flaw);
  return guarded(path, template as Template);
};

const firstLine = (error: unknown): string => (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? '';

/** What keeps a default export from being a template, `undefined` when nothing does. */
const flawOf = (value: unknown): string | undefined => {
  if (value === undefined) return 'it has no default export: write export default defineTemplate({ ... })';
  if (typeof value !== 'object' || value === null) return `its default export is a ${typeof value}, not an object`;
  const t = value as Record<string, unknown>;
  for (const key of ['family', 'summary', 'sketch']) if (typeof t[key] !== 'string') return `give ${key}, a text`;
  for (const key of ['cautions', 'examples']) if (!Array.isArray(t[key])) return `give ${key}, a list, which may be empty`;
  if (typeof t['build'] !== 'function') return 'give build, a function of the values that returns { part }';
  const { inputs, cautions } = t;
  const unknown = (cautions as unknown[]).find((id) => typeof id !== 'string' || !Object.hasOwn(CAUTIONS, id));
  if (unknown !== undefined) return `there is no caution ${shown(unknown)}; there are ${Object.keys(CAUTIONS).join(', ')}`;
  if (typeof inputs !== 'object' || inputs === null) return 'give inputs, an object of fields';
  const foreign = Object.entries(inputs).find(([, field]) => typeof field !== 'object' || field === null || !('_zod' in field));
  if (foreign !== undefined) return `make the input ${foreign[0]} with one of the functions of fields, such as fields.length`;
  try {
    // To describe them looks at each field's facts and at its name.
    describeInputs(value as Template);
  } catch (error) {
    return firstLine(error);
  }
  return undefined;
};

/** A fault in the user's own code is told as such, and not as one of blankwright's. */
const guarded = (path: string, template: Template): Template => ({
  ...template,
  build(values) {
    let built: unknown;
    try {
      built = template.build(values);
    } catch (error) {
      return refuse(path, `its build fails: ${firstLine(error)}`);
    }
    if (typeof built !== 'object' || built === null || built instanceof Promise) return refuse(path, 'its build must return { part }, { findings } or both, and not a promise');
    return built;
  },
});
