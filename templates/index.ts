import type { Template } from '../src/forms/template.ts';

/** Gives the module of a family. */
export type LoadFamily = () => Promise<{ readonly default: Template }>;

/** Part families by name. Each is loaded only when it is asked for. */
const MODULES = {
  baffle: () => import('./baffle/index.ts'),
  'bracket-angle': () => import('./bracket-angle/index.ts'),
  'bracket-channel': () => import('./bracket-channel/index.ts'),
  'bracket-gusset': () => import('./bracket-gusset/index.ts'),
  'bracket-hat': () => import('./bracket-hat/index.ts'),
  'bracket-zed': () => import('./bracket-zed/index.ts'),
  cone: () => import('./cone/index.ts'),
  cradle: () => import('./cradle/index.ts'),
  'duct-between': () => import('./duct-between/index.ts'),
  'duct-box': () => import('./duct-box/index.ts'),
  'duct-transition': () => import('./duct-transition/index.ts'),
  elbow: () => import('./elbow/index.ts'),
  'heel-rest': () => import('./heel-rest/index.ts'),
  'neck-plate': () => import('./neck-plate/index.ts'),
  panels: () => import('./panels/index.ts'),
  plate: () => import('./plate/index.ts'),
  ring: () => import('./ring/index.ts'),
  saddle: () => import('./saddle/index.ts'),
  shell: () => import('./shell/index.ts'),
  strap: () => import('./strap/index.ts'),
  'strut-brace': () => import('./strut-brace/index.ts'),
  tank: () => import('./tank/index.ts'),
  'tank-plan': () => import('./tank-plan/index.ts'),
  'tank-sections': () => import('./tank-sections/index.ts'),
  'test-strip': () => import('./test-strip/index.ts'),
  tray: () => import('./tray/index.ts'),
  'tube-hole': () => import('./tube-hole/index.ts'),
  'vent-panel': () => import('./vent-panel/index.ts'),
} satisfies Readonly<Record<string, LoadFamily>>;

export type FamilyName = keyof typeof MODULES;

/** The modules of the families of sheet, by any name that may be typed. */
export const FAMILIES: ReadonlyMap<string, LoadFamily> = new Map<string, LoadFamily>(
  Object.entries(MODULES),
);

/** Families of tubes, which have no blank and so no cut file, no folds and no flat pattern. */
const TUBE_MODULES = {
  'tube-bent': () => import('./tube-bent/index.ts'),
  'tube-cope': () => import('./tube-cope/index.ts'),
  'tube-mitre': () => import('./tube-mitre/index.ts'),
} satisfies Readonly<Record<string, LoadFamily>>;

export const TUBE_FAMILIES: ReadonlyMap<string, LoadFamily> = new Map<string, LoadFamily>(
  Object.entries(TUBE_MODULES),
);

/** The families of sheet, then those of tubes. */
export const ALL_FAMILIES: ReadonlyMap<string, LoadFamily> = new Map([
  ...FAMILIES,
  ...TUBE_FAMILIES,
]);

/** The loader of each family's template, by the existing names. */
const loadersOf = <Name extends string>(
  modules: Readonly<Record<Name, LoadFamily>>,
): Readonly<Record<Name, () => Promise<Template>>> =>
  Object.fromEntries(
    Object.entries<LoadFamily>(modules).map(([name, load]) => [
      name,
      async () => (await load()).default,
    ]),
  ) as Readonly<Record<Name, () => Promise<Template>>>;

export const TEMPLATES = loadersOf(MODULES);
export const TUBE_TEMPLATES = loadersOf(TUBE_MODULES);
