import type { Corner, Fold, Part } from '../model/part.ts';
import type { Wish } from '../model/wish.ts';
import { type Finding, stop } from '../model/finding.ts';
import { foldFlaws } from './fold-flaws.ts';
import { isLength } from './length-limits.ts';
import { panelFlaws } from './panel-flaws.ts';

/**
 * What makes a part unsound: numbers that are not numbers, outlines that do not close, folds that
 * join nothing, and panels that do not make one tree. Each stop names the panel, the fold or the
 * edge, and the mend. The later stages rely on there being none, so the check is made once, before
 * the part is laid flat or mirrored.
 */
export const partFlaws = (part: Part): Finding[] => {
  const own = [...figureFlaws(part), ...nameFlaws(part), ...part.panels.flatMap(panelFlaws)];
  // A fold is checked only when its panels are sound, and the tree only when its folds are.
  if (own.length > 0) return own;
  const folds = foldFlaws(part);
  return folds.length > 0
    ? folds
    : [
        ...treeFlaws(part),
        ...(part.corners ?? []).flatMap((corner) => cornerFlaws(part, corner)),
        ...(part.wishes ?? []).flatMap((wish) => wishFlaws(part, wish)),
      ];
};

const figureFlaws = ({ thicknessMm, cornerGapMm, relief }: Part): Finding[] => {
  return [
    ...(isLength(thicknessMm) && thicknessMm > 0
      ? []
      : [
          stop(
            'part-figures',
            `The part is ${thicknessMm} mm thick: give thicknessMm, more than 0.`,
          ),
        ]),
    ...(isLength(cornerGapMm)
      ? []
      : [
          stop(
            'part-figures',
            `The part has a cornerGapMm of ${cornerGapMm}: give a gap of 0 mm or more.`,
          ),
        ]),
    ...(isLength(relief.widthMm) && isLength(relief.leastSlotMm)
      ? []
      : [
          stop(
            'part-figures',
            `The part has a relief of widthMm ${relief.widthMm} and leastSlotMm ${relief.leastSlotMm}: give both, 0 mm or more.`,
          ),
        ]),
  ];
};

const nameFlaws = ({ panels, folds }: Part): Finding[] => {
  if (panels.length === 0)
    return [
      stop('part-tree', 'The part has no panels: give one at least, with an id and an outline.'),
    ];
  const twice = (names: readonly string[]): string[] => [
    ...new Set(names.filter((name, i) => names.indexOf(name) < i)),
  ];
  return [
    ...twice(panels.map((p) => p.id)).map((id) =>
      stop('part-tree', `Two panels are called '${id}': give each an id of its own.`),
    ),
    ...twice(folds.map((f) => f.id)).map((id) =>
      stop('part-tree', `Two folds are called '${id}': give each an id of its own.`),
    ),
  ];
};

/**
 * Every panel but the root must be the child of exactly one fold, and be connected to the root by
 * it and its parents.
 */
const treeFlaws = ({ root, panels, folds }: Part): Finding[] => {
  if (!panels.some((p) => p.id === root))
    return [
      stop(
        'part-tree',
        `The root is '${root}', which is no panel: name one of ${panels.map((p) => `'${p.id}'`).join(', ')}.`,
      ),
    ];
  const parentsOf = (panel: string): Fold[] => folds.filter((f) => f.child.panel === panel);
  const [onRoot] = parentsOf(root);
  if (onRoot !== undefined) {
    return [
      stop(
        'part-tree',
        `Panel '${root}' is the root, and the child of fold ${onRoot.id} too: exchange parent and child of that fold, or name another root.`,
      ),
    ];
  }
  const twice = panels.filter((p) => parentsOf(p.id).length > 1);
  if (twice.length > 0) {
    return twice.map(({ id }) =>
      stop(
        'part-tree',
        `Panel '${id}' is the child of folds ${parentsOf(id)
          .map((f) => f.id)
          .join(
            ' and ',
          )}, and can hang on one alone: leave the others open, as seams, or exchange parent and child of one.`,
      ),
    );
  }
  return looseFlaws(
    root,
    panels.map((p) => p.id),
    folds,
  );
};

/**
 * Panels that cannot be reached from the root: those that are nobody's child, and those that go
 * round in a circle.
 */
const looseFlaws = (root: string, panels: readonly string[], folds: readonly Fold[]): Finding[] => {
  const reached = new Set([root]);
  for (let size = 0; size < reached.size;) {
    size = reached.size;
    for (const { parent, child } of folds) if (reached.has(parent.panel)) reached.add(child.panel);
  }
  const loose = panels.filter((id) => !reached.has(id));
  const tops = loose.filter((id) => folds.every((f) => f.child.panel !== id));
  if (tops.length > 0)
    return tops.map((id) =>
      stop(
        'part-tree',
        `Panel '${id}' hangs on nothing: give a fold of which it is the child, or leave it out. It cannot be a second root beside '${root}'.`,
      ),
    );
  if (loose.length === 0) return [];
  const round = folds.filter((f) => loose.includes(f.child.panel)).map((f) => f.id);
  return [
    stop(
      'part-tree',
      `Panels ${loose.map((id) => `'${id}'`).join(', ')} hang on each other in a circle, by folds ${round.join(', ')}, and not on the root '${root}': leave one of these folds open, and fold one of the panels to the rest.`,
    ),
  ];
};

const cornerFlaws = (
  { folds }: Part,
  { folds: [one, other], style, through, gapMm }: Corner,
): Finding[] => {
  const name = `The corner of folds ${one} and ${other}`;
  const missing = [one, other].filter((id) => folds.every((f) => f.id !== id));
  if (missing.length > 0)
    return [
      stop(
        'part-tree',
        `${name}: there is no fold ${missing.join(' nor ')}; there are ${folds.map((f) => f.id).join(', ') || 'none'}.`,
      ),
    ];
  if (one === other)
    return [stop('part-tree', `${name} is of one fold: name the two that meet there.`)];
  if (style === 'butt' && through !== one && through !== other)
    return [
      stop(
        'part-tree',
        `${name} is butt, through '${through ?? 'nothing'}': say which of the two runs through.`,
      ),
    ];
  if (gapMm !== undefined && !isLength(gapMm))
    return [stop('part-tree', `${name} has a gapMm of ${gapMm}: give 0 or more.`)];
  return [];
};

/** The place of what an input means must be on a panel or a fold that exists. */
const wishFlaws = ({ panels, folds }: Part, wish: Wish): Finding[] => {
  const asked = wish.kind === 'angle' ? wish.deg : wish.mm;
  const named =
    wish.kind === 'angle'
      ? wish.panels
      : wish.kind === 'diameter' || wish.kind === 'rolled'
        ? [wish.panel]
        : wish.between.map((feature) => feature.panel);
  const onFolds =
    wish.kind === 'length'
      ? wish.between.flatMap((feature) => (feature.kind === 'fold' ? [feature.fold] : []))
      : [];
  const noPanel = named.find((id) => panels.every((p) => p.id !== id));
  const noFold = onFolds.find((id) => folds.every((f) => f.id !== id));
  return [
    ...(Number.isFinite(asked)
      ? []
      : [
          stop(
            'part-wish',
            `The value of input ${wish.input} on the part is ${asked}: give a number.`,
          ),
        ]),
    ...(noPanel === undefined
      ? []
      : [
          stop(
            'part-wish',
            `Input ${wish.input} is to be measured on panel '${noPanel}', which does not exist: name one of ${panels.map((p) => `'${p.id}'`).join(', ')}.`,
          ),
        ]),
    ...(noFold === undefined
      ? []
      : [
          stop(
            'part-wish',
            `Input ${wish.input} is to be measured at fold ${noFold}, which does not exist: name one of ${folds.map((f) => f.id).join(', ') || 'none'}.`,
          ),
        ]),
  ];
};
