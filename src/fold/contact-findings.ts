import { exceeds } from '../model/measured.ts';
import { movePoint } from '../geometry/motion2.ts';
import { invertPose, type Pose, posePoint } from '../geometry/pose.ts';
import { middle } from '../geometry/vec2.ts';
import { foldUp } from './fold-up.ts';
import { atLeast, figure } from '../text/figures.ts';
import { advise, type Finding } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import type { Part } from '../model/part.ts';
import { type Contact, contactsOf } from './contact.ts';

/**
 * The finished part must not run into itself. An edge that only grazes a bend can be dressed, so it
 * warns; it is not reported beside a contact that stops the part.
 */
export const contactFindings = (part: Part, flat: FlatPattern): Finding[] => {
  const contacts = contactsOf(part, flat);
  const blocking = contacts.filter((contact) => !grazesBend(contact, part.thicknessMm));
  return blocking.length === 0
    ? contacts.map((contact) => ({ ...grazing(part, contact), ...placeOf(part, flat, contact) }))
    : clusters(part, blocking).map((cluster) => ({
        ...blocked(part, cluster),
        ...placeOf(part, flat, cluster.contacts[0]),
      }));
};

/**
 * Place of a contact on the blank: on the panel that takes part in it, or else on the first of two
 * bends.
 */
const placeOf = (
  part: Part,
  flat: FlatPattern,
  { between, at, depthMm }: Contact,
): Pick<Finding, 'panel' | 'at' | 'measured' | 'limit'> => {
  const panel = flat.panels.find(({ id }) => between.includes(id));
  const bend = flat.bends.find(({ id }) => between.includes(`fold ${id}`));
  const depth = exceeds(depthMm, 0);
  if (panel === undefined)
    return { ...depth, ...(bend !== undefined && { at: middle(...bend.centreLine) }) };
  const pose = foldUp(part, flat).poses.get(panel.id) as Pose;
  const [x, y] = posePoint(invertPose(pose), at);
  return { ...depth, panel: panel.id, at: movePoint(panel.placement, [x, y]) };
};

const foldOf = (name: string): string | undefined =>
  name.startsWith('fold ') ? name.slice('fold '.length) : undefined;

const grazesBend = ({ between, depthMm }: Contact, thicknessMm: number): boolean =>
  between.some((name) => foldOf(name) !== undefined) && depthMm < thicknessMm;

const called = (part: Part, name: string): string => {
  const fold = foldOf(name);
  return fold === undefined ? name : foldName(part, fold);
};

/**
 * Contacts, deepest first, and all the panels they are between; a bend counts as the two panels it
 * joins.
 */
interface Cluster {
  readonly contacts: readonly [Contact, ...Contact[]];
  readonly panels: ReadonlySet<string>;
}

/**
 * A panel that runs into another mostly takes its bends and neighbours along, so contacts that
 * share a panel are reported as one.
 */
function clusters(part: Part, contacts: readonly Contact[]): Cluster[] {
  let found: Cluster[] = [];
  for (const contact of contacts) {
    const panels = contact.between.flatMap((name) => panelsOf(part, name));
    const touched = found.filter((cluster) => panels.some((panel) => cluster.panels.has(panel)));
    const [first, ...more] = [...touched.flatMap((cluster) => cluster.contacts), contact].toSorted(
      (x, y) => y.depthMm - x.depthMm,
    );
    const joined: Cluster = {
      contacts: [first as Contact, ...more],
      panels: new Set([...touched.flatMap((cluster) => [...cluster.panels]), ...panels]),
    };
    found = [...found.filter((cluster) => !touched.includes(cluster)), joined];
  }
  return found;
}

const panelsOf = ({ folds }: Part, name: string): string[] => {
  const id = foldOf(name);
  return id === undefined
    ? [name]
    : folds.filter((f) => f.id === id).flatMap(({ parent, child }) => [parent.panel, child.panel]);
};

const grazing = (part: Part, contact: Contact): Finding => {
  const [a, b] = contact.between.map((name) => called(part, name));
  return advise(
    'grazes-bend',
    [],
    `Folded, ${a} grazes ${b} by ${figure(contact.depthMm)} mm`,
    [],
    'file the edge, take a smaller radius, or a cornerGap that is wider by as much',
  );
};

const blocked = (part: Part, { contacts: [{ between, depthMm }], panels }: Cluster): Finding => {
  const [a, b] = between.map((name) => called(part, name));
  return foundOn(
    'runs-into-itself',
    { panels: [...panels], folds: between.flatMap((name) => foldOf(name) ?? []) },
    `Folded, ${a} runs into ${b} by ${figure(depthMm)} mm`,
    `make one of them ${atLeast(depthMm)} mm shorter or narrower, or turn it the other way`,
  );
};
