import type { CommonValues } from '../forms/common.ts';
import type { Built, Piece } from '../forms/template.ts';
import type { Part } from '../model/part.ts';
import type { Standing } from '../model/standing.ts';
import type { Panels } from './build.ts';
import { BASE_ALLOWED } from './fields.ts';
import type { Figures } from './figures.ts';
import type { PieceMap } from './given-pieces.ts';
import { namesOf } from './names.ts';
import { Assembly, type Place } from './pieces.ts';
import { type TabbedPiece, withTabs } from './tabs.ts';

const QUANTITY = { kind: 'count', least: 1, most: 1000 } as const;

/** A part of several blanks. */
export function builtPieces(panels: Panels, figures: Figures, values: CommonValues): Built<Part> {
  const { pieces = [], tabs = [] } = panels;
  const nothing = { findings: [] };
  spareInputs(panels, figures);
  namesOfPieces(pieces, figures);
  const quantities = pieces.map(({ quantity }, i) =>
    quantity === undefined ? 1 : figures.read(quantity, `pieces[${i}].quantity`, QUANTITY),
  );
  if (figures.problems.length > 0) return nothing;
  const assembly = new Assembly(pieces, figures, values);
  const built = pieces.map(({ name }) => assembly.built(name));
  if (figures.problems.length > 0) return nothing;
  const findings = built.flatMap((made) => made.findings);
  const whole = wholePieces(assembly);
  const isOneWhole = new Set(whole.map(({ place }) => place?.space)).size === 1;
  const withParts = (parts: readonly Part[]): Piece[] =>
    whole.map(({ name, place }, i) => {
      const at = assembly.names.indexOf(name);
      const [part, quantity] = [parts[i] as Part, quantities[at] ?? 1];
      const standing = isOneWhole ? standingOf(pieces[at] as PieceMap, place, quantity) : undefined;
      return { id: name, part, quantity, ...(standing !== undefined && { standing }) };
    });
  // Of several, what is made shows by findings of its own why the others are not.
  if (whole.length < pieces.length)
    return {
      ...(whole.length > 0 && { pieces: withParts(whole.map(({ part }) => part)) }),
      findings: [...findings, ...assembly.unmade()],
    };
  const asked = [
    { tabs, at: '', own: undefined },
    ...pieces.map((piece, i) => ({ tabs: piece.tabs, at: `pieces[${i}].`, own: piece.name })),
  ];
  const tabbed = withTabs(whole, asked, figures, values);
  return { pieces: withParts(tabbed.parts), findings: [...findings, ...tabbed.findings] };
}

/**
 * Where a piece stands in the coordinates of the one that fits to nothing. What goes over another or
 * into it is taken off again; cheeks are welded. Of several alike only one has a place.
 */
const standingOf = (
  { fits }: PieceMap,
  place: Place | undefined,
  quantity: number,
): Standing | undefined =>
  place === undefined || quantity > 1
    ? undefined
    : {
        poses: [place.pose],
        ...(fits !== undefined && { turn: 2 }),
        ...((fits?.over !== undefined || fits?.into !== undefined) && { weldedTo: [], turn: 3 }),
      };

/** The pieces that have a part, with all that tabs want to know of them. */
const wholePieces = (assembly: Assembly): TabbedPiece[] =>
  assembly.names.flatMap((name) => {
    const { part } = assembly.built(name);
    return part === undefined
      ? []
      : [
          {
            name,
            part,
            body: assembly.body(name),
            place: assembly.place(name),
            insetMm: assembly.insetOf(name),
          },
        ];
  });

/** With pieces the panels of the part itself have no place. */
const spareInputs = ({ base, flanges, corners, order = [] }: Panels, figures: Figures): void => {
  const given = { base, flanges: flanges[0], corners: corners[0], order: order[0] };
  for (const [input, value] of Object.entries(given))
    if (value !== undefined)
      figures.problem(
        input,
        value,
        `nothing beside pieces, each of which has ${input} of its own`,
        `leave out ${input}, or make it a piece`,
      );
};

/** Files are called after pieces, and figures name them. */
const namesOfPieces = (pieces: readonly PieceMap[], figures: Figures): void => {
  for (const [i, piece] of pieces.entries()) {
    const { name, base, fits } = piece;
    const at = `pieces[${i}].`;
    if (!/^[a-z][a-z\d]*(?:-[a-z\d]+)*$/.test(name) || name.length > LONGEST_NAME)
      figures.problem(
        `${at}name`,
        name,
        `small letters and figures with hyphens between, up to ${LONGEST_NAME} long, such as end-left`,
      );
    else if (pieces.findIndex((other) => other.name === name) < i)
      figures.problem(`${at}name`, name, 'a name of its own', `call it ${freeName(name, pieces)}`);
    if (fits === undefined && Object.keys(base).every((key) => !SHAPES.has(key)))
      figures.problem(`${at}base`, undefined, BASE_ALLOWED, 'give it, or fits');
    namesOf({ ...piece, at }, figures);
  }
};

/** The name with the lowest number that no other piece has. */
const freeName = (name: string, pieces: readonly PieceMap[]): string => {
  let n = 2;
  while (pieces.some((other) => other.name === `${name}-${n}`)) n++;
  return `${name}-${n}`;
};

const LONGEST_NAME = 40;
const SHAPES = new Set(['size', 'width', 'depth', 'outline', 'disc', 'ring', 'polygon']);
