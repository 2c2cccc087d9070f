import { type Tooth, withTeeth } from '../flatten/teeth.ts';
import type { CommonValues } from '../forms/common.ts';
import { type Clearance, clearanceInSlots } from '../forms/tab-clearance.ts';
import type { Loop } from '../geometry/loop.ts';
import { type Finding, note, refuse } from '../model/finding.ts';
import type { Cutout, Part } from '../model/part.ts';
import { atLeast, figure } from '../text/figures.ts';
import { listIn, mapIn } from '../text/grouped.ts';
import type { Body } from './body.ts';
import type { Figures } from './figures.ts';
import type { GivenTabMap } from './given-pieces.ts';
import type { Place } from './pieces.ts';
import { findEnd, type NamedEnd } from './tab-names.ts';
import { readTab, type ReadTab } from './read-tab.ts';
import { flawOf, type Layout, placesOf } from './tab-layout.ts';
import { noRoom } from './tab-room.ts';
import { footOf, placedIn, type Site, siteAt, type SitePanel } from './tab-site.ts';

/** A piece as tabs find it. */
export interface TabbedPiece {
  readonly name: string;
  readonly part: Part;
  /** Nothing of a part that cannot be made. */
  readonly body: Body | undefined;
  readonly place: Place | undefined;
  /** Of a cheek between panels, how far in it stands, mm. */
  readonly insetMm: number | undefined;
}

/** Tabs by who asks for them: a piece, by its name, whose panels need no name in front. */
export interface AskedTabs {
  readonly tabs: readonly GivenTabMap[];
  /** `pieces[1].`, or nothing. */
  readonly at: string;
  readonly own: string | undefined;
}

export interface Tabbed {
  readonly parts: readonly Part[];
  readonly findings: readonly Finding[];
}

/** Teeth and slots of all tabs so far, by piece and panel. */
interface Made {
  readonly teeth: Map<string, Map<string, Map<number, Tooth[]>>>;
  readonly slots: Map<string, Map<string, Cutout[]>>;
  readonly feet: Map<string, Map<string, Loop[]>>;
}

/**
 * The same parts with teeth on edges and slots where they meet other panels. What is wrong with the
 * tabs themselves goes to `figures`, what there is no room for is a finding.
 */
export function withTabs(
  pieces: readonly TabbedPiece[],
  asked: readonly AskedTabs[],
  figures: Figures,
  values: CommonValues,
): Tabbed {
  const made: Made = { teeth: new Map(), slots: new Map(), feet: new Map() };
  const findings: Finding[] = [];
  for (const { tabs, at, own } of asked)
    for (const [i, given] of tabs.entries()) {
      const path = `${at}tabs[${i}]`;
      const input = at === '' ? 'tabs' : 'pieces';
      const tab = readTab(given, path, figures.ofPiece(own ?? ''), values);
      const ends = endsOf(pieces, given, path, own, figures);
      if (tab === undefined || ends === undefined) continue;
      findings.push(...tabsAt({ tab, ends, path, input, made, values, figures }));
    }
  if (
    made.teeth.size > 0 &&
    asked.some(({ tabs }) => tabs.some((tab) => tab.clearance === undefined))
  )
    findings.push(clearanceTaken(clearanceInSlots(values)));
  const parts = pieces.map(({ name, part }) => {
    const slots = made.slots.get(name);
    const slotted = {
      ...part,
      panels: part.panels.map((panel) => {
        const own = slots?.get(panel.id);
        return own === undefined ? panel : { ...panel, cutouts: [...panel.cutouts, ...own] };
      }),
    };
    const teeth = made.teeth.get(name);
    return teeth === undefined ? slotted : withTeeth(slotted, teeth);
  });
  return { parts, findings };
}

interface Ends {
  readonly edge: NamedEnd & { readonly index: number };
  readonly panel: NamedEnd;
}

/** The edge and the panel that a tab names, both in one space. */
const endsOf = (
  pieces: readonly TabbedPiece[],
  given: GivenTabMap,
  path: string,
  own: string | undefined,
  figures: Figures,
): Ends | undefined => {
  const edge = findEnd(pieces, given.on, own, 'edge');
  const panel = findEnd(pieces, given.into, own, 'panel');
  if (!edge.ok) return figures.problem(`${path}.on`, given.on, edge.allowed, edge.mend);
  if (!panel.ok) return figures.problem(`${path}.into`, given.into, panel.allowed, panel.mend);
  if (edge.piece === panel.piece && edge.panel === panel.panel)
    return figures.problem(`${path}.into`, given.into, 'another panel than that of the teeth');
  const [a, b] = [edge.piece.place, panel.piece.place];
  if (a === undefined || b === undefined) return undefined;
  return a.space === b.space
    ? { edge: { ...edge, index: edge.index ?? 0 }, panel }
    : figures.problem(
        `${path}.into`,
        given.into,
        `pieces whose places to each other are known; of ${edge.piece.name} and ${panel.piece.name} they are not`,
        `give one of them fits, such as closes ${panel.piece.name} left`,
      );
};

interface Work {
  readonly tab: ReadTab;
  readonly ends: Ends;
  readonly path: string;
  readonly input: string;
  readonly made: Made;
  readonly values: CommonValues;
  readonly figures: Figures;
}

/** Makes the teeth and slots of one tab, or says why there are none. */
function tabsAt(work: Work): Finding[] {
  const { tab, ends, path, input, made, values, figures } = work;
  const [one, other] = [ends.edge, ends.panel].map((end) => sitePanel(end, made));
  const [on, into] = [calledOf(ends.edge), calledOf(ends.panel)];
  if (one === undefined || other === undefined) return [];
  const site = siteAt(one, ends.edge.index, other);
  if (typeof site === 'string') {
    figures.problem(
      `${path}.into`,
      into,
      `a panel that ${on} stands on: it ${site === 'aslant' ? 'runs aslant to' : 'lies alongside'} ${into}`,
    );
    return [];
  }
  const off = offPanel(site, on, into, input);
  if (off !== undefined) return [off];
  const clearanceMm = tab.clearanceMm ?? clearanceInSlots(values).mm;
  const asked: Layout = { ...tab, clearanceMm, reliefMm: values.leastSlotMm };
  const why = flawOf(site, asked);
  if (why !== undefined)
    return [noRoom({ on, into, piece: ends.edge.piece, input }, site, asked, why)];
  keep(work, site, asked);
  return [];
}

/** What clearance was taken where none was asked for, once. */
export const clearanceTaken = ({ mm, because }: Clearance): Finding =>
  note(
    'tab-clearance',
    `Teeth have ${figure(mm)} mm all round in their slots: ${because}. Cut one and try it before the rest.`,
  );

const calledOf = ({ piece, panel, edge }: NamedEnd): string =>
  [
    ...(piece.name === '' ? [] : [piece.name]),
    panel.id,
    ...(edge === undefined ? [] : [edge]),
  ].join(' ');

const sitePanel = ({ piece, panel }: NamedEnd, made: Made): SitePanel | undefined => {
  const body = piece.body?.panels.find(({ id }) => id === panel.id);
  if (body === undefined || piece.place === undefined) return undefined;
  return {
    panel: body,
    pose: placedIn(piece.place.pose, body),
    thicknessMm: piece.part.thicknessMm,
    cutouts: [...panel.cutouts, ...(made.slots.get(piece.name)?.get(panel.id) ?? [])],
    taken: made.feet.get(piece.name)?.get(panel.id) ?? [],
  };
};

/** Of an edge that does not reach the panel, or reaches into it. */
const offPanel = (
  { shortMm, other }: Site,
  on: string,
  into: string,
  input: string,
): Finding | undefined => {
  const most = Math.max(other.thicknessMm, LEAST_REACH_MM);
  if (shortMm >= -TOUCH_MM && shortMm <= most) return undefined;
  return refuse(
    'tab-off-panel',
    [input],
    shortMm < 0
      ? `${on} reaches ${figure(-shortMm)} mm into ${into}, where its teeth alone should`
      : `${on} ends ${figure(shortMm)} mm before ${into}; teeth hold it off by at most ${figure(most)}`,
    [],
    shortMm < 0
      ? `end it ${atLeast(-shortMm)} mm sooner`
      : `let it reach ${figure(shortMm)} mm farther`,
  );
};

/** A gap that a weld still fills, on thin sheet, mm (common practice). */
const LEAST_REACH_MM = 2;
/** By how much two faces that touch may seem to lie in each other, mm. */
const TOUCH_MM = 0.02;

/** Puts teeth and slots where they belong. */
const keep = ({ ends, input, made }: Work, site: Site, layout: Layout): void => {
  const { edge, panel } = ends;
  const places = placesOf(site, layout);
  const teeth = listIn(mapIn(mapIn(made.teeth, edge.piece.name), edge.panel.id), edge.index);
  const slots = listIn(mapIn(made.slots, panel.piece.name), panel.panel.id);
  const feet = listIn(mapIn(made.feet, edge.piece.name), edge.panel.id);
  for (const [from, to] of places) {
    teeth.push({ from, to, outMm: site.toothMm, reliefMm: layout.reliefMm });
    feet.push(footOf(site, { from, to }, layout.reliefMm, 0));
    slots.push({
      kind: 'loop',
      from: `slot ${slots.length + 1} of ${panel.panel.id} for ${calledOf(edge)}`,
      inputs: [input],
      ...(edge.piece === panel.piece && { takes: edge.panel.id }),
      loop: site.slot(from, to, layout.clearanceMm).loop(layout.reliefMm),
    });
  }
};
