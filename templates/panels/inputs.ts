import {
  fields,
  panelBase,
  panelCorners,
  panelFlanges,
  panelOrder,
  panelPieces,
  panelTabs,
} from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Panels', {
    base: panelBase({
      about:
        'The panel that stays put: a rectangle, an outline, a disc, a sector of a ring or a regular polygon, with its holes and cut-outs.',
      anchor: { kind: 'panel', panel: 'base' },
      otherwise: 'the part is pieces, each with a base of its own',
    }),
    flanges: panelFlanges({
      about:
        'What is folded on, each on an edge of the base (bottom, right, top, left, or as its outline says) or of another flange (left, right, end). Figures may be sums of other lengths of the part, such as base.width/2 - 3.',
      anchor: { kind: 'bends' },
    }),
    corners: panelCorners({
      about:
        'How neighbouring flanges meet, where that is not open: butt, or lapped with a tab on the one that does not run on.',
      anchor: { kind: 'corners' },
    }),
    order: panelOrder({
      about: 'In which order the panels of the part are counted; of no matter to its shape.',
      anchor: { kind: 'blank' },
    }),
    tabs: panelTabs({
      about:
        'Teeth on the free edge of a panel and slots where they meet another, which hold the two in place to be welded.',
      anchor: { kind: 'blank' },
    }),
    pieces: panelPieces({
      about:
        'Several blanks in one part, each with its name, in place of base, flanges and corners; one may take its size from another that is folded up.',
      anchor: { kind: 'blank' },
    }),
  }),
};

/** A part as it is described. */
export type PanelsInput = TemplateValues<typeof inputs>;
