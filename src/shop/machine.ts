import { findMachine, MACHINES } from '../data/machines.ts';
import type { Json } from '../forms/accepts.ts';
import type { Reader } from '../forms/field.ts';
import * as fields from '../forms/fields.ts';
import { list, optional, section } from '../forms/sections.ts';
import type { Machine } from '../model/machine.ts';
import type { Sourced } from '../model/material.ts';
import { family, sheetThickness } from './cutter.ts';
import { isSourced } from './machine-entry.ts';

/** A figure that the shop file gives. */
export const measured = <T>(value: T): Sourced<T> => ({
  value,
  basis: 'measured',
  source: 'the shop file',
});
export const orElse = <T, E>(value: T | undefined, otherwise: E): Sourced<T> | E =>
  value === undefined ? otherwise : measured(value);

export const length = (min: number, max: number, about: string) =>
  fields.length({ about, min, max });

/** What folders and press brakes have in common. */
export const ANY_MACHINE = {
  id: fields.id({ about: 'Its name as typed on the command line.' }),
  name: fields.text({ about: 'What it is called.', max: 100 }),
  workingLength: length(10, 20_000, 'The longest fold that it makes.'),
  capacity: optional(
    sheetThickness(
      'Thickest mild steel over the whole length, as its plate says it; with fingers in it takes two gauges less. Not checked when left out.',
    ),
  ),
  capacities: optional(
    list(
      'Thickest other sheet, or sheet over shorter folds, where that is known.',
      section('The thickest sheet of a kind.', {
        material: family('The family of materials.'),
        thickness: sheetThickness('The thickest.'),
        length: optional(
          length(10, 20_000, 'The fold that it holds up to; the whole length when left out.'),
        ),
      }),
      {
        what: 'capacities, each with material and thickness, and the length of fold that it holds up to',
        min: 0,
        max: 20,
      },
    ),
  ),
  minFlange: optional(length(0.1, 500, 'Least strip of flat sheet in front of the fold.')),
  maxAngle: optional(
    fields.angle({
      about: 'How far it bends: the steepest fold is less by its springback.',
      min: 1,
      max: 180,
    }),
  ),
  overbend: optional(
    fields.angle({
      about:
        'How far past the wanted angle a fold must be able to swing freely, where springback is less.',
      min: 0,
      max: 45,
    }),
  ),
  maxUncovered: optional(
    length(0, 500, 'How much of a fold may be left without tool at each end.'),
  ),
};

/**
 * A described machine that has the id of a built-in one: figures that are the same as there keep
 * their basis and source, for nobody has measured them.
 */
export const withKnownSources = <M extends Machine>(given: M): M => {
  const known = MACHINES.find((m) => m.kind === given.kind && m.id === given.id);
  if (known === undefined) return given;
  const figures = known as unknown as Readonly<Record<string, unknown>>;
  return Object.fromEntries(
    Object.entries(given).map(([name, figure]) => {
      const own = figures[name];
      const isSame =
        isSourced(figure) &&
        isSourced(own) &&
        JSON.stringify(figure.value) === JSON.stringify(own.value);
      return [name, isSame ? own : figure];
    }),
  ) as unknown as M;
};

/** A machine that is described, or a built-in one that is named by its id alone. */
export const orBuiltIn = <M extends Machine>(described: Reader<M>, kind: M['kind']): Reader<M> => {
  const ids = MACHINES.flatMap((m) => (m.kind === kind ? [m.id] : []));
  return {
    json: (): Json => ({ anyOf: [{ type: 'string', enum: ids }, described.json()] }),
    read: (given) => {
      if (typeof given !== 'string') return described.read(given);
      const found = findMachine(given);
      if (found.ok && found.value.kind === kind) return { ok: true, value: found.value as M };
      const allowed = `a ${kind} described, or the id of a built-in one: ${ids.join(', ')}`;
      const mend = found.ok ? `${given} is a ${found.value.kind}` : found.reason;
      return { ok: false, flaws: [{ path: [], allowed, mend }] };
    },
  };
};
