import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { webTooThin } from '../../src/checks/web-too-thin.ts';
import { RULES } from '../../src/use/rules.ts';
import { BRACKET, blankwright, json, tempFolder } from '../helpers/command.ts';

const ANSWER = z.strictObject({
  rules: z
    .array(
      z.strictObject({
        rule: z.string(),
        title: z.string(),
        severities: z.array(z.enum(['stop', 'warn', 'note'])).min(1),
        reason: z.string(),
        measured: z.string(),
        mend: z.string(),
        source: z.string(),
      }),
    )
    .min(1),
});

const reason = (...words: string[]) => blankwright(['reason', ...words], tempFolder());
const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('reason', () => {
  test('tells of one rule what it says, why, what to do, and from where its limit is', async () => {
    const ran = await reason('web-too-thin');
    expect([ran.code, ran.err]).toEqual([0, '']);
    for (const text of [
      'web-too-thin (warn)',
      webTooThin.title,
      webTooThin.reason,
      webTooThin.mend,
      webTooThin.source.slice(1),
    ])
      expect(flat(ran.out)).toContain(text);
  });

  test('lists all rules without a name, in text and in JSON', async () => {
    const { out } = await reason();
    for (const { rule, title } of RULES.values()) expect(flat(out)).toContain(`${rule} ${title}`);
    const { rules } = ANSWER.parse(json(await reason('--json')));
    expect(rules.map(({ rule }) => rule)).toEqual([...RULES.keys()]);
    expect(ANSWER.parse(json(await reason('web-too-thin', '--json'))).rules).toEqual(
      rules.filter(({ rule }) => rule === 'web-too-thin'),
    );
  });

  test('of a name that there is not says which was meant', async () => {
    const ran = await reason('web-to-thin');
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('Did you mean web-too-thin?');
    expect((await reason('no such thing at all')).code).toBe(2);
  });

  test('may be asked of whatever make tells: its rule stands behind each finding', async () => {
    const { out } = await blankwright(BRACKET, tempFolder());
    const told = [...out.matchAll(/^ {2}(?:stop|warn|note) .*\[([a-z\d-]+)\]$/gm)].map(
      ([, r]) => r,
    );
    expect(told.length).toBeGreaterThan(0);
    for (const rule of told) expect(RULES.has(rule as string)).toBe(true);
  });
});
