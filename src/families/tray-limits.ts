import { atLeast, atMost, figure } from '../figures.ts';
import { type Finding, stop } from '../model/finding.ts';
import { impossibleTeardrop } from './teardrop.ts';
import {
  hemRadiusMm, insetMm, isHem, isInward, lipOf, lipSetbackMm, notchMm, type OutsideTray, reachMm, setback90Mm, type Side, SIDES, spanMm, tabStretch, type TrayLength,
} from './tray-sizes.ts';

/** What cannot be folded, each with the figure that could. */
export const impossibleTray = (v: OutsideTray): Finding[] => [...base(v), ...heights(v), ...lips(v), ...laps(v), ...cable(v)];

/** A length as it was given, or would have to be. */
const given = (v: OutsideTray, input: TrayLength, mm: number): number => mm - v.added[input];

function base(v: OutsideTray): Finding[] {
  // Sides of a lapped tray stand in at both ends, and every relief needs its width.
  const least = 2 * (setback90Mm(v) + v.thicknessMm + v.cornerGapMm + notchMm(v));
  return (['length', 'depth'] as const)
    .filter((input) => v[input] < least)
    .map((input) => stop('tray-too-small', `${input} ${figure(given(v, input, v[input]))} leaves no base between the bends: give ${atLeast(given(v, input, least))} or more.`));
}

function heights(v: OutsideTray): Finding[] {
  const least = Math.max(...SIDES.map((side) => setback90Mm(v) + lipSetbackMm(v, lipOf(v, side)))) + 2 * notchMm(v);
  return v.height < least ? [stop('tray-too-low', `height ${figure(given(v, 'height', v.height))} leaves no flat between the bends of a side: give ${atLeast(given(v, 'height', least))} or more.`)] : [];
}

function lips(v: OutsideTray): Finding[] {
  const kinds = SIDES.map((side) => lipOf(v, side)).filter((lip) => lip !== 'none');
  if (kinds.length === 0) return [];
  const least = Math.max(...kinds.map((lip) => lipSetbackMm(v, lip))) + v.thicknessMm;
  const findings: Finding[] = kinds.some(isHem) && v.hemShape === 'teardrop' ? impossibleTeardrop({ radiusMm: hemRadiusMm(v), thicknessMm: v.thicknessMm, depthMm: v.lipDepth }, 'lipDepth', given(v, 'lipDepth', v.lipDepth)) : [];
  if (v.lipDepth < least) findings.push(stop('lip-too-narrow', `lipDepth ${figure(given(v, 'lipDepth', v.lipDepth))} is all bend: give ${atLeast(given(v, 'lipDepth', least))} or more.`));
  const longest = v.height - setback90Mm(v) - v.cornerGapMm;
  if (kinds.some(isHem) && v.lipDepth > longest) {
    findings.push(stop('hem-too-deep', `A hem of lipDepth ${figure(given(v, 'lipDepth', v.lipDepth))} reaches the bend of the base: give ${atMost(given(v, 'lipDepth', longest))} or less.`));
  }
  return [...findings, ...lipsThatMeet(v, 'depth', ['front', 'back']), ...lipsThatMeet(v, 'length', ['left', 'right'])];
}

function lipsThatMeet(v: OutsideTray, input: 'length' | 'depth', pair: readonly [Side, Side]): Finding[] {
  if (!pair.some((side) => isInward(lipOf(v, side)))) return [];
  const least = reachMm(v, lipOf(v, pair[0])) + reachMm(v, lipOf(v, pair[1])) + 2 * (v.cornerGapMm + notchMm(v) + v.thicknessMm);
  return v[input] < least
    ? [stop('lips-meet', `What is turned in at ${pair[0]} and ${pair[1]} meets: give ${input} ${atLeast(given(v, input, least))} or more, or a smaller lipDepth.`)]
    : [];
}

function laps(v: OutsideTray): Finding[] {
  if (v.corner !== 'lapped') return [];
  const findings: Finding[] = [];
  const [least, most] = [setback90Mm(v) + v.thicknessMm, (v.depth - v.cornerGapMm) / 2];
  if (v.lap < least || v.lap > most) {
    findings.push(stop('lap-does-not-fit', `lap ${figure(given(v, 'lap', v.lap))} is all bend or meets the tab opposite: give ${atLeast(given(v, 'lap', least))} to ${atMost(given(v, 'lap', most))}.`));
  }
  const short = (['front', 'back'] as const).flatMap((side) => (['left', 'right'] as const).map((end) => tabStretch(v, side, end)));
  const tallest = Math.min(...short.map(([low, high]) => high - low));
  const need = 2 * notchMm(v);
  if (tallest < need) {
    findings.push(stop('no-height-for-tab', `height ${figure(given(v, 'height', v.height))} leaves no tab between the bends: give ${atLeast(given(v, 'height', v.height + need - tallest))} or more, or corner butt.`));
  }
  return findings;
}

function cable(v: OutsideTray): Finding[] {
  const side = v.cableSide;
  if (side === 'none') return [];
  const findings: Finding[] = [];
  if (lipOf(v, side) !== 'none') findings.push(stop('cable-through-lip', `The ${side} has a lip along its top, where the cable cut-out begins: leave the lip out, or use a slot in that side.`));
  const [shallow, deep] = [v.cableWidth / 2, v.height - setback90Mm(v) - notchMm(v)];
  if (v.cableDepth < shallow || v.cableDepth > deep) {
    const mend = shallow > deep ? `a cableWidth of ${atMost(2 * deep)} or less` : `${atLeast(shallow)} to ${atMost(deep)}`;
    findings.push(stop('cable-depth', `cableDepth ${figure(v.cableDepth)} does not fit a cut-out of width ${figure(v.cableWidth)} with a round bottom: give ${mend}.`));
  }
  const end = Math.max(insetMm(v, side), v.thicknessMm + v.cornerGapMm) + notchMm(v) + (v.corner === 'lapped' ? v.insideRadiusMm + v.thicknessMm : 0) + v.cableWidth / 2;
  const at = v.cableAt ?? spanMm(v, side) / 2;
  if (at < end || at > spanMm(v, side) - end) {
    const mend = 2 * end > spanMm(v, side) ? 'make it narrower' : `give cableAt ${atLeast(given(v, 'cableAt', end))} to ${atMost(given(v, 'cableAt', spanMm(v, side) - end))}`;
    findings.push(stop('cable-off-side', `The cable cut-out at ${figure(given(v, 'cableAt', at))} leaves no metal at the end of the ${side}: ${mend}.`));
  }
  return findings;
}
