import type { Template } from '../src/input/template.ts';

/** Gives the module of a family. */
export type LoadFamily = () => Promise<{ readonly default: Template }>;

/** Part families by name. Each is loaded only when it is asked for. */
const MODULES = {
  baffle: () => import('./baffle.ts'),
  'bracket-angle': () => import('./bracket-angle.ts'),
  'bracket-channel': () => import('./bracket-channel.ts'),
  'bracket-gusset': () => import('./bracket-gusset.ts'),
  'bracket-hat': () => import('./bracket-hat.ts'),
  'bracket-zed': () => import('./bracket-zed.ts'),
  'duct-box': () => import('./duct-box.ts'),
  'duct-transition': () => import('./duct-transition.ts'),
  'heel-rest': () => import('./heel-rest.ts'),
  plate: () => import('./plate.ts'),
  ring: () => import('./ring.ts'),
  strap: () => import('./strap.ts'),
  'strut-brace': () => import('./strut-brace.ts'),
  tank: () => import('./tank.ts'),
  'test-strip': () => import('./test-strip.ts'),
  tray: () => import('./tray.ts'),
} satisfies Readonly<Record<string, LoadFamily>>;

export type FamilyName = keyof typeof MODULES;

/** The modules of the families, by any name that is typed. */
export const FAMILIES: ReadonlyMap<string, LoadFamily> = new Map<string, LoadFamily>(Object.entries(MODULES));

/** What gives the template of each family, by the names that there are. */
export const TEMPLATES = Object.fromEntries(Object.entries<LoadFamily>(MODULES).map(([name, load]) => [name, async () => (await load()).default])) as Readonly<Record<FamilyName, () => Promise<Template>>>;
