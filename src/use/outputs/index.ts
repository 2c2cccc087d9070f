import { writeDxf } from '../../dxf/write/dxf.ts';
import { writeSvg } from '../../paper/write/svg.ts';
import type { DxfVersion } from '../made-part.ts';
import type { AskedOutput, CutOutput, Need, Output } from './output.ts';

/**
 * Everything that is made from a part, a line for each file, in the order in which files are told.
 * The flags and their help, job files with their schema, and the library know outputs from this
 * list alone: to add an output is to add a line. Code that few commands need is loaded on demand.
 */
export const OUTPUTS = [
  {
    id: 'dxf',
    about: 'DXF of release 2000',
    extension: '.dxf',
    unasked: 'r2000',
    needs: ['drawing'],
    write: ({ drawing, ...options }) => writeDxf(drawing, { version: 'r2000', ...options }),
  },
  {
    id: 'dxf-r12',
    about: 'DXF of release 12',
    extension: '.dxf',
    unasked: 'r12',
    needs: ['drawing'],
    write: ({ drawing, ...options }) => writeDxf(drawing, { version: 'r12', ...options }),
  },
  {
    id: 'svg',
    about: 'SVG',
    extension: '.svg',
    unasked: 'always',
    needs: ['drawing'],
    write: ({ drawing, ...options }) => writeSvg(drawing, options),
  },
  {
    id: 'card',
    about: 'card template',
    extension: '-card.pdf',
    needs: ['paper'],
    write: async (source) => (await import('./card.ts')).cardPdf(source),
  },
  {
    id: 'sheet',
    about: 'job sheet',
    extension: '-sheet.html',
    needs: ['fit', 'findings', 'paper'],
    write: async (source) => (await import('./sheet.ts')).jobSheetHtml(source),
  },
  {
    id: 'sheet',
    about: 'job sheet',
    extension: '-sheet.pdf',
    needs: ['fit', 'findings', 'paper'],
    write: async (source) => (await import('./sheet.ts')).jobSheetPdf(source),
  },
  {
    id: 'assembly',
    about: 'assembly of several pieces',
    extension: '-assembly.html',
    needs: ['assembly', 'paper'],
    write: async (source) => (await import('./assembly.ts')).assemblyHtml(source),
  },
  {
    id: 'assembly',
    about: 'assembly of several pieces',
    extension: '-assembly.pdf',
    needs: ['assembly', 'paper'],
    write: async (source) => (await import('./assembly.ts')).assemblyPdf(source),
  },
  {
    id: 'assembly',
    about: 'assembly of several pieces',
    extension: '-assembly.glb',
    needs: ['assembly'],
    write: async (source) => (await import('./assembly.ts')).assemblyGlb(source),
  },
  {
    id: 'model',
    about: 'GLB',
    extension: '.glb',
    needs: [],
    write: async (source) => (await import('./model.ts')).modelGlb(source),
  },
  {
    id: 'model',
    about: 'STL',
    extension: '.stl',
    needs: [],
    write: async (source) => (await import('./model.ts')).modelStl(source),
  },
  {
    id: 'step',
    about: 'STEP (needs an extra package)',
    extension: '.step',
    needs: [],
    write: async (source) => (await import('./step.ts')).modelStep(source),
  },
  {
    id: 'folding',
    about: 'steps of folding',
    extension: '-folding.svg',
    needs: ['plan'],
    write: async (source) => (await import('./folding.ts')).foldingSvg(source),
  },
  {
    id: 'folding',
    about: 'steps of folding',
    extension: '-folding.glb',
    needs: ['plan'],
    write: async (source) => (await import('./assembly.ts')).foldingGlb(source),
  },
  {
    id: 'folding',
    about: 'steps of folding',
    extension: '-folding.pdf',
    needs: ['plan', 'paper'],
    write: async (source) => (await import('./folding.ts')).foldingPdf(source),
  },
  {
    id: 'folding',
    about: 'steps of folding',
    extension: '-folding.html',
    needs: ['plan'],
    write: async (source) => (await import('./folding.ts')).foldingHtml(source),
  },
] as const satisfies readonly Output[];

/** The word by which an output is asked for. */
export type OutputId = Exclude<(typeof OUTPUTS)[number], { readonly unasked: string }>['id'];

/** The outputs that are written only where they are asked for. */
export const ASKED_OUTPUTS = (OUTPUTS as readonly Output[]).filter(
  (output): output is AskedOutput => output.unasked === undefined,
);

/** The words by which outputs are asked for, each once, in the order of the list. */
export const OUTPUT_IDS: readonly OutputId[] = [
  ...new Set(ASKED_OUTPUTS.map(({ id }) => id as OutputId)),
];

/** The outputs of one word. */
export const outputsNamed = (id: OutputId): readonly AskedOutput[] =>
  ASKED_OUTPUTS.filter((output) => output.id === id);

/** What the outputs of one word are, in the words of the help: `GLB and STL`. */
export const aboutOutput = (id: OutputId): string =>
  [...new Set(outputsNamed(id).map(({ about }) => about))].join(' and ');

/** Whether one of the outputs that are asked for needs something. */
export const isNeeded = (need: Need, ids: readonly OutputId[]): boolean =>
  ids.flatMap(outputsNamed).some(({ needs }) => needs.includes(need));

/** The cut files that every part has; those of one extension are dialects of each other. */
export const cutOutputs = (dxfVersion: DxfVersion): readonly CutOutput[] =>
  (OUTPUTS as readonly Output[]).filter(
    (output): output is CutOutput =>
      output.unasked === 'always' || (output.unasked as string | undefined) === dxfVersion,
  );
