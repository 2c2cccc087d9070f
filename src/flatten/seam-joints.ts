import { NOISE_MM } from '../geometry/tolerance.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import type { Fold, Panel, Part } from '../model/part.ts';
import { type Draft, jointFrom } from './draft.ts';
import { lapFlange } from './lap-flange.ts';
import { beyondEdgeMm, endMm, type SeamCut, setBackMm } from './seam-cut.ts';
import { edgeAt, type Reach, usable } from './seam-edges.ts';
import { tabPlaces } from './tab-places.ts';
import { type Tooth, withTeeth } from './teeth.ts';

/** What is added to the pieces at their seams: teeth by panel and edge, and flanges. */
interface Added {
  readonly teeth: Map<string, Map<number, readonly Tooth[]>>;
  readonly flanges: { readonly panel: Panel; readonly fold: Fold }[];
}

/** The pieces with the flanges and tabs that they are joined by. */
export function joinedAt(
  draft: Draft,
  cuts: readonly SeamCut[],
  pieces: readonly Part[],
): readonly Part[] {
  const added: Added = { teeth: new Map(), flanges: [] };
  for (const cut of cuts) {
    if (cut.way === 'lap') addLap(draft, cut, added);
    if (cut.way === 'tab') addTabs(draft, cut, added);
  }
  return pieces.map((piece) => {
    const has = (id: string): boolean => piece.panels.some((panel) => panel.id === id);
    const own = added.flanges.filter(({ fold }) => has(fold.parent.panel));
    const teeth = new Map([...added.teeth].filter(([panel]) => has(panel)));
    const whole = {
      ...piece,
      panels: [...piece.panels, ...own.map(({ panel }) => panel)],
      folds: [...piece.folds, ...own.map(({ fold }) => fold)],
    };
    return teeth.size === 0 ? whole : withTeeth(whole, teeth);
  });
}

const otherThan = ({ parent, child }: Fold, panel: string): string =>
  parent.panel === panel ? child.panel : parent.panel;

const addTeeth = (added: Added, panel: string, edge: number, teeth: readonly Tooth[]): void => {
  const own = added.teeth.get(panel) ?? new Map<number, readonly Tooth[]>();
  own.set(edge, teeth);
  added.teeth.set(panel, own);
};

function addLap(draft: Draft, cut: SeamCut & { readonly way: 'lap' }, added: Added): void {
  const joint = jointFrom(draft, cut.fold, cut.on);
  const made = lapFlange(draft, cut, edgeAt(draft, cut.fold, cut.on));
  if ('severity' in made) draft.findings.push(made);
  else added.flanges.push(made);
  // Drawn on inside faces the other panel ends there, and is to reach to the outside of this one.
  const outMm = beyondEdgeMm(joint) - endMm(joint);
  const other = otherThan(joint.fold, cut.on);
  const { from, to } = usable(draft, cut.fold, other);
  if (outMm < NOISE_MM || to <= from) return;
  const edge = edgeAt(draft, cut.fold, other);
  addTeeth(added, other, edge.edge, [
    { from: from - edge.from, to: to - edge.from, outMm, reliefMm: 0 },
  ]);
}

function addTabs(draft: Draft, cut: SeamCut & { readonly way: 'tab' }, added: Added): void {
  const joint = jointFrom(draft, cut.fold, cut.on);
  const { relief, thicknessMm } = draft.part;
  const reach = usable(draft, cut.fold, cut.on);
  const places = tabPlaces(reach, { ...cut, thicknessMm, reliefMm: relief.leastSlotMm });
  if (places.length === 0) {
    draft.findings.push(
      foundOn(
        'no-tab-seam',
        { panels: [cut.on], folds: [cut.fold] },
        `${foldName(draft.part, cut.fold)} has no room for tabs: ${Math.max(0, reach.to - reach.from).toFixed(1)} mm are left between its ends`,
        'weld it without tabs, or take another fold',
      ),
    );
    return;
  }
  const other = otherThan(joint.fold, cut.on);
  const out = (panel: string): number =>
    beyondEdgeMm(joint) + setBackMm(joint, cut, panel, 0) - endMm(joint);
  const toothed = (panel: string, spans: readonly Reach[]): void => {
    const edge = edgeAt(draft, cut.fold, panel);
    const tooth = ({ from, to }: Reach): Tooth => ({
      from: from - edge.from,
      to: to - edge.from,
      outMm: out(panel),
      reliefMm: relief.leastSlotMm,
    });
    addTeeth(added, panel, edge.edge, spans.map(tooth));
  };
  toothed(cut.on, places);
  toothed(other, between(reach, places, cut.clearanceMm).map(turned));
}

/** The same stretch seen from the other panel of the seam. */
const turned = ({ from, to }: Reach): Reach => ({ from: -to, to: -from });

/** What is left of a stretch beside and between the slots for some tabs. */
const between = (reach: Reach, places: readonly Reach[], clearanceMm: number): Reach[] => {
  const ends = [
    reach.from,
    ...places.flatMap(({ from, to }) => [from - clearanceMm, to + clearanceMm]),
    reach.to,
  ];
  return places
    .map((_, i) => i)
    .concat(places.length)
    .map((i) => ({ from: ends[2 * i] as number, to: ends[2 * i + 1] as number }));
};
