import { solidView } from './solid-view.ts';

// What draws solids is large: the page runs it when a folded part is first looked at.
Object.assign(globalThis, { blankwrightSolid: solidView });
