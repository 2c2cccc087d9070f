import type { BentTube } from '../../src/tube/bent-tube.ts';
import type { CopedTube } from '../../src/tube/cope/coped-part.ts';
import type { MadeTube } from '../../src/use/made-part.ts';

export type MadeBent = MadeTube & { readonly tube: BentTube };

/** Made tubes that are known to be bent ones. */
export const bentOf = (tubes: readonly MadeTube[]): MadeBent[] =>
  tubes.map((made) => {
    if (made.tube.kind !== 'bent') throw new Error(made.tube.kind);
    return { ...made, tube: made.tube };
  });

/** Made tubes that are known to be coped ones. */
export const copedOf = (tubes: readonly MadeTube[]): (MadeTube & { readonly tube: CopedTube })[] =>
  tubes.map((made) => {
    if (made.tube.kind !== 'coped') throw new Error(made.tube.kind);
    return { ...made, tube: made.tube };
  });
