/**
 * The library: from inputs to files, or any of the steps on the way. Nothing here touches a file or the console.
 */
export { bendFigures } from './bending/bend.ts';
export type { Bend, BendFigures } from './bending/bend.ts';
export { parseRule, ruleText } from './bending/rule.ts';
export { workedSums } from './bending/sums.ts';
export { findMaterial, MATERIALS } from './data/materials.ts';
export { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from './data/shop-default.ts';
export { drawBlank } from './draw/blank.ts';
export { flatten } from './flatten/flatten.ts';
export { foldUp } from './fold/body.ts';
export type { FoldedBody } from './fold/body.ts';
export { foldedSizeMm } from './fold/size.ts';
export { describeInputs, inputsJsonSchema, readInputs } from './input/read.ts';
export type { InputDescription, InputProblem } from './input/read.ts';
export { makeParts } from './job.ts';
export type { Made, MadePart, MakeOptions, OutputFile } from './job.ts';
export type { BendRule } from './model/bend-rule.ts';
export type { Drawing, DrawingItem, Role } from './model/drawing.ts';
export type { Finding, Severity } from './model/finding.ts';
export type { FlatBend, FlatPattern } from './model/flat.ts';
export type { Material } from './model/material.ts';
export { mirrorPart } from './model/mirror.ts';
export type { Part } from './model/part.ts';
export { reroot } from './model/reroot.ts';
export type { Shop } from './model/shop.ts';
export type { MakeResult, PartResult } from './result.ts';
export { readShop } from './shop/read.ts';
export type { ReadShop } from './shop/read.ts';
export { shopEntries, writeShop } from './shop/write.ts';
export { solveDistances } from './survey/solve.ts';
export type { Distance, Survey } from './survey/survey.ts';
export { writeDxf } from './write/dxf.ts';
export { WRITERS } from './write/index.ts';
export type { Writer } from './write/index.ts';
export { makerModel } from './write/maker-model.ts';
export { writeSvg } from './write/svg.ts';
export { FAMILIES } from '../templates/index.ts';
