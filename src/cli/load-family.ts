import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ALL_FAMILIES } from '../../templates/index.ts';
import { defineTemplate, type Template } from '../forms/template.ts';
import { templateFlaws } from '../forms/template-flaws.ts';
import { nearest } from '../text/nearest.ts';
import type { ImportModule } from './console.ts';
import { WrongInput } from './failure.ts';

/**
 * The template of a family of the catalogue; `where` is added behind the name in messages and says
 * where it was given.
 */
export const loadFamily = async (family: string, where = ''): Promise<Template> => {
  const load = ALL_FAMILIES.get(family);
  if (load !== undefined) return (await load()).default;
  const names = [...ALL_FAMILIES.keys()];
  const meant = nearest(family, names);
  const called = meant === undefined ? await summedUpBy(family) : [meant];
  throw new WrongInput([
    {
      input: 'family',
      given: `'${family}'${where}`,
      allowed: names.join(', '),
      mend: called.length === 0 ? 'see blankwright list' : `did you mean ${called.join(' or ')}?`,
    },
  ]);
};

/**
 * Families whose line in the list contains all the words of a name: a shelf bracket is a
 * bracket-gusset.
 */
const summedUpBy = async (name: string): Promise<string[]> => {
  const words = name
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((word) => word.length > 2);
  const families = await Promise.all(
    [...ALL_FAMILIES.values()].map(async (load) => (await load()).default),
  );
  const found = families.filter(
    ({ summary }) =>
      words.length > 0 && words.every((word) => summary.toLowerCase().includes(word)),
  );
  return found.slice(0, MOST_MEANT).map(({ family }) => family);
};

const MOST_MEANT = 3;

const refuse = (given: string, mend: string): never => {
  throw new WrongInput([
    {
      input: 'template',
      given,
      allowed:
        'a JavaScript module whose default export is made by defineTemplate of blankwright/template',
      mend,
    },
  ]);
};

/** A template of the user's own. This runs the code in the file. */
export const loadTemplateFile = async (
  path: string,
  importModule: ImportModule,
): Promise<Template> => {
  let module: { readonly default?: unknown };
  try {
    module = (await importModule(pathToFileURL(resolve(path)).href)) as {
      readonly default?: unknown;
    };
  } catch (error) {
    return refuse(path, `it cannot be loaded: ${firstLine(error)}`);
  }
  const { default: template } = module;
  if (template === undefined)
    return refuse(path, 'it has no default export: write export default defineTemplate({ ... })');
  const flaws = templateFlaws(template);
  if (flaws.length > 0)
    throw new WrongInput(flaws.map((flaw) => ({ ...flaw, given: `${flaw.given} in ${path}` })));
  return guarded(path, defineTemplate(template as Template));
};

const firstLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? '';

/**
 * The template with errors in the user's own code reported as such, and not as errors of
 * blankwright.
 */
const guarded = (path: string, template: Template): Template => ({
  ...template,
  build(values) {
    try {
      return template.build(values);
    } catch (error) {
      return refuse(path, `its build fails: ${firstLine(error)}`);
    }
  },
});
