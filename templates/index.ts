import type { Template } from '../src/input/template.ts';

/** Gives the module of a family. */
export type LoadFamily = () => Promise<{ readonly default: Template }>;

/** Part families by name. Each is loaded only when it is asked for. */
export const FAMILIES: ReadonlyMap<string, LoadFamily> = new Map<string, LoadFamily>([
  ['baffle', () => import('./baffle.ts')],
  ['bracket-angle', () => import('./bracket-angle.ts')],
  ['bracket-channel', () => import('./bracket-channel.ts')],
  ['bracket-gusset', () => import('./bracket-gusset.ts')],
  ['bracket-hat', () => import('./bracket-hat.ts')],
  ['bracket-zed', () => import('./bracket-zed.ts')],
  ['duct-box', () => import('./duct-box.ts')],
  ['duct-transition', () => import('./duct-transition.ts')],
  ['heel-rest', () => import('./heel-rest.ts')],
  ['plate', () => import('./plate.ts')],
  ['ring', () => import('./ring.ts')],
  ['strap', () => import('./strap.ts')],
  ['strut-brace', () => import('./strut-brace.ts')],
  ['tank', () => import('./tank.ts')],
  ['test-strip', () => import('./test-strip.ts')],
  ['tray', () => import('./tray.ts')],
]);
