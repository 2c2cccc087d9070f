import type { CommonValues } from '../forms/common.ts';
import { AT_HOME, composePoses, type Pose } from '../geometry/pose.ts';
import { type Finding, forOne, note, stop } from '../model/finding.ts';
import { figure } from '../text/figures.ts';
import { nearest } from '../text/nearest.ts';
import { type Body, bodyOf, whyNoBody } from './body.ts';
import { type BuiltPiece, buildPiece } from './build-piece.ts';
import { cheek } from './cheek.ts';
import type { Figures } from './figures.ts';
import { type Fitted, fittedInto, fittedOver, type Fitting } from './fits.ts';
import type { PieceMap } from './given-pieces.ts';
import type { GivenPiece, Piece } from './piece.ts';
import { solverOf } from './solve.ts';
import { RELATIONS } from './piece-lines.ts';
import type { Shape } from './shape.ts';

/** Where a piece lies: in the coordinates of a piece that fits to nothing, by its name. */
export interface Place {
  readonly space: string;
  readonly pose: Pose;
}

/** The pieces of a part, each worked out when it is first asked for: they take sizes from each other. */
export class Assembly {
  readonly figures: Figures;
  readonly #given: readonly PieceMap[];
  readonly #values: CommonValues;
  readonly #solvers = new Map<string, () => Piece | undefined>();
  readonly #solved = new Map<string, Piece | undefined>();
  readonly #built = new Map<string, BuiltPiece>();
  readonly #bodies = new Map<string, Body | undefined>();
  readonly #fitted = new Map<string, Fitted | undefined>();

  constructor(given: readonly PieceMap[], figures: Figures, values: CommonValues) {
    this.#given = given;
    this.figures = figures;
    this.#values = values;
    for (const [i, piece] of given.entries()) {
      const own = figures.ofPiece(piece.name);
      const at = `pieces[${i}].`;
      const blank: GivenPiece = {
        ...piece,
        at,
        ...(piece.fits !== undefined && { fitted: () => this.#fittedBase(piece, at) }),
      };
      this.#solvers.set(
        piece.name,
        solverOf({ figures: own, given: blank, values: this.#valuesOf(piece.name) }),
      );
    }
  }

  /** The common values, with the piece's own way to measure. */
  #valuesOf(name: string): CommonValues {
    const measure = this.#given.find((piece) => piece.name === name)?.measure;
    return measure === undefined ? this.#values : { ...this.#values, measure };
  }

  get names(): readonly string[] {
    return this.#given.map(({ name }) => name);
  }

  /** Nothing where something is wrong with a figure of it, or of one that it takes its size from. */
  solved(name: string): Piece | undefined {
    if (this.#solved.has(name)) return this.#solved.get(name);
    const piece = this.#solvers.get(name)?.();
    this.#solved.set(name, piece);
    return piece;
  }

  built(name: string): BuiltPiece {
    const known = this.#built.get(name);
    if (known !== undefined) return known;
    const { figures } = this;
    const told = figures.problems.length;
    const piece = this.solved(name);
    const made =
      piece === undefined
        ? undefined
        : buildPiece(piece, figures.ofPiece(name), this.#valuesOf(name));
    const built =
      made === undefined || figures.problems.length > told
        ? { findings: [] }
        : this.#named(name, made);
    this.#built.set(name, built);
    return built;
  }

  /** What is found of a piece is told under its name. */
  #named(name: string, { part, findings }: BuiltPiece): BuiltPiece {
    const ridesMm = this.#fitted.get(name)?.ridesMm ?? 0;
    const rides =
      ridesMm < SHOWN_MM
        ? []
        : [
            note(
              'fit-rides-on-bend',
              `${name} does not lie flat on ${this.#otherOf(name) ?? 'the other piece'}: a sharp edge rides on the inside radius of a bend and holds it ${figure(ridesMm)} mm off. A gap as large as that radius, or a smaller radius, lets it down.`,
            ),
          ];
    return {
      ...(part !== undefined && { part }),
      findings: [...findings.map((finding) => forOne(finding, name)), ...rides],
    };
  }

  /** Nothing of a piece that cannot be made. */
  body(name: string): Body | undefined {
    if (this.#bodies.has(name)) return this.#bodies.get(name);
    const { part } = this.built(name);
    const body = part === undefined ? undefined : bodyOf(part);
    this.#bodies.set(name, body);
    return body;
  }

  /** Pieces that have no size, since what they are fitted to cannot be folded up. */
  unmade(): Finding[] {
    return this.names.flatMap((name) => {
      const other = this.#otherOf(name);
      if (other === undefined || this.built(name).part !== undefined) return [];
      if (this.body(other) !== undefined) return [];
      const { part } = this.built(other);
      const why = part === undefined ? [] : whyNoBody(part);
      return [
        ...why.map((finding) => forOne(finding, other)),
        stop(
          'fit-to-nothing',
          `${name} takes its size from ${other}, which cannot be made as it is described: mend ${other} first.`,
        ),
      ];
    });
  }

  /** Where a piece lies; nothing where a piece on the way cannot be made. */
  place(name: string): Place | undefined {
    const other = this.#otherOf(name);
    if (other === undefined) return { space: name, pose: AT_HOME };
    const [below, body] = [this.place(other), this.body(name)];
    const fitted = this.#fitted.get(name);
    return below === undefined || body === undefined || fitted === undefined
      ? undefined
      : { space: below.space, pose: composePoses(below.pose, fitted.poseOf(body)) };
  }

  /** How far in a cheek between panels stands, mm. */
  insetOf(name: string): number | undefined {
    return this.#fitted.get(name)?.insetMm;
  }

  #otherOf(name: string): string | undefined {
    const fits = this.#given.find((piece) => piece.name === name)?.fits;
    const key = RELATIONS.find((relation) => fits?.[relation] !== undefined);
    const words = key === undefined ? [] : (fits?.[key] ?? '').trim().split(/\s+/);
    return words[0] === '' ? undefined : words[0];
  }

  #fittedBase(piece: PieceMap, at: string): Shape | undefined {
    const { figures } = this;
    const key = RELATIONS.find((relation) => piece.fits?.[relation] !== undefined);
    if (key === undefined || piece.fits === undefined) return undefined;
    const shaped = (['size', 'width', 'depth', 'outline', 'disc', 'ring', 'polygon'] as const).find(
      (shape) => piece.base[shape] !== undefined,
    );
    if (shaped !== undefined)
      return figures.problem(
        `${at}base.${shaped}`,
        piece.base[shaped],
        'no shape beside fits, which says what size the base is',
        `leave out ${shaped} or fits`,
      );
    const written = piece.fits[key] ?? '';
    const path = `${at}fits.${key}`;
    const other = this.#otherOf(piece.name) ?? '';
    if (!this.names.includes(other) || other === piece.name)
      return this.#noPiece(path, written, other, piece.name);
    const isEdge = key === 'closes' || key === 'covers';
    const place = isEdge ? this.#edgeOf(other, written, path) : undefined;
    if (isEdge && place === undefined) return undefined;
    const base = figures.within(other, path, written, () => {
      const [solved, body] = [this.solved(other), this.body(other)];
      return solved === undefined || body === undefined ? undefined : { solved, body };
    });
    if (base === undefined) return undefined;
    const fitting: Fitting = {
      figures: figures.ofPiece(piece.name),
      at,
      fits: piece.fits,
      own: piece,
      values: this.#valuesOf(piece.name),
      other: { name: other, base: base.solved.base, body: base.body },
    };
    const fitted =
      place !== undefined
        ? cheek(fitting, place.panel, place.edge)
        : key === 'over'
          ? fittedOver(fitting)
          : fittedInto(fitting);
    this.#fitted.set(piece.name, fitted);
    return fitted?.shape;
  }

  #noPiece(path: string, written: string, other: string, own: string): undefined {
    const others = this.names.filter((name) => name !== own);
    const meant = nearest(other, others);
    return this.figures.problem(
      path,
      written,
      others.length === 0
        ? 'another piece; there is none'
        : `another piece: ${others.slice(0, 12).join(', ')}`,
      meant === undefined ? undefined : `did you mean ${meant}?`,
    );
  }

  /** An edge of a piece as it is written: `box left`, `box wall right`. */
  #edgeOf(
    piece: string,
    written: string,
    path: string,
  ): { readonly panel: string; readonly edge: string } | undefined {
    const words = written.trim().split(/\s+/).slice(1);
    const panels = this.panelsOf(piece);
    const edge = words.at(-1);
    const panel = words.slice(0, -1).join(' ') || (panels[0] ?? 'base');
    if (edge !== undefined && panels.includes(panel)) return { panel, edge };
    const meant = nearest(panel, panels);
    return this.figures.problem(
      path,
      written,
      `${piece}, one of its panels (${panels.slice(0, 12).join(', ')}) and an edge of that, such as ${piece} left`,
      edge === undefined || meant === undefined || meant === panel
        ? undefined
        : `did you mean ${piece} ${meant} ${edge}?`,
    );
  }

  /** The panels of a piece by their names, its base first. */
  panelsOf(piece: string): readonly string[] {
    const given = this.#given.find(({ name }) => name === piece);
    return given === undefined
      ? []
      : [given.base.name ?? 'base', ...given.flanges.map(({ name }) => name)];
  }
}

/** Less than this is no thickness of a feeler gauge, mm. */
const SHOWN_MM = 0.05;
