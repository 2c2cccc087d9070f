import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { FAMILIES } from '../../templates/index.ts';
import type { AnyTemplate } from '../input/any-template.ts';
import { nearest } from '../nearest.ts';
import { WrongInput } from './failure.ts';

/** The template of a family of the catalogue. */
export const loadFamily = async (family: string): Promise<AnyTemplate> => {
  const load = FAMILIES.get(family);
  if (load !== undefined) return (await load()).default;
  const names = [...FAMILIES.keys()];
  const meant = nearest(family, names);
  throw new WrongInput([
    { input: 'family', given: `'${family}'`, allowed: names.join(', '), mend: meant === undefined ? 'see blankwright list' : `did you mean ${meant}?` },
  ]);
};

const refuse = (given: string, mend: string): never => {
  throw new WrongInput([{ input: 'template', given, allowed: 'a JavaScript module whose default export is a template', mend }]);
};

/** A template of the user's own. This runs the code in the file. */
export const loadTemplateFile = async (path: string): Promise<AnyTemplate> => {
  let module: { readonly default?: unknown };
  try {
    module = (await import(pathToFileURL(resolve(path)).href)) as { readonly default?: unknown };
  } catch (error) {
    return refuse(path, `it cannot be loaded: ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`);
  }
  const { default: template } = module;
  if (!isTemplate(template)) {
    return refuse(path, 'give its default export family, summary, sketch, inputs, cautions, examples and build, as defineTemplate of blankwright/template asks');
  }
  return template;
};

const isTemplate = (value: unknown): value is AnyTemplate => {
  if (typeof value !== 'object' || value === null) return false;
  const t = value as Record<string, unknown>;
  return (
    ['family', 'summary', 'sketch'].every((key) => typeof t[key] === 'string') &&
    typeof t['inputs'] === 'object' &&
    t['inputs'] !== null &&
    Array.isArray(t['cautions']) &&
    Array.isArray(t['examples']) &&
    typeof t['build'] === 'function'
  );
};
