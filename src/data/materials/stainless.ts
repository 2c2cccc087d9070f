import type { Material } from '../../model/material.ts';
import { din6935Radii, stock } from './sources.ts';
import { fromMemory, published } from '../sourced.ts';

/** Stainless sheet. */
export const STAINLESS: readonly Material[] = [
  {
    id: '1.4301',
    name: '1.4301 (X5CrNi18-10)',
    aliases: ['304', 'aisi304', 'v2a', 'x5crni18-10'],
    family: 'stainless',
    densityKgM3: published(7900, 'EN 10088-1, stockholder data page'),
    yieldMpa: fromMemory(230, 'EN 10088-2, cold-rolled, from memory'),
    tensileMpa: fromMemory([540, 750], 'EN 10088-2, cold-rolled, from memory'),
    elongationPct: fromMemory(45, 'EN 10088-2, over 80 mm, cold-rolled, from memory'),
    modulusMpa: fromMemory(200_000),
    stockThicknessesMm: stock(0.5, 0.6, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6),
    leastRadius: din6935Radii('over 490 to 640', 'common practice'),
    gaugeScale: null,
    remark: 'does not rust; springs back much, hardens as it is bent, pulls when welded',
  },
];
