import { wholePart } from '../forms/built.ts';
import type { CommonValues } from '../forms/common.ts';
import type { GivenPart } from '../forms/template.ts';
import type { Part } from '../model/part.ts';

/** A part made from its panels and folds, with what the common inputs say about every part. */
export const assemble = (values: CommonValues, tree: GivenPart): Part => wholePart(tree, values);
