import { existsSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { Document, isMap, isSeq, parseDocument, type YAMLSeq } from 'yaml';
import { findMaterial } from '../data/materials.ts';
import { parseAngle, parseLength } from '../text/units.ts';
import { askOne, type Dialogue, type Question } from './dialogue.ts';
import { saveAll } from './save.ts';
import { readTextFile } from './read-text-file.ts';

/** A question with the name of its answer in the file. */
type Named = Question & { readonly name: string };

const length = (text: string): string | undefined => {
  const read = parseLength(text);
  return read.ok ? undefined : read.reason;
};
const angle = (text: string): string | undefined => {
  const read = parseAngle(text);
  return read.ok ? undefined : read.reason;
};
const sheet = (text: string): string | undefined => {
  const found = findMaterial(text);
  return found.ok ? undefined : found.reason;
};
const anything = (): undefined => undefined;

const HEMS = ['closed', 'open', 'teardrop'];
const angleOrHem = (text: string): string | undefined =>
  HEMS.includes(text.toLowerCase()) ? undefined : angle(text);

const SHARED: readonly Named[] = [
  { name: 'material', ask: 'Material, such as dc01', wrong: sheet },
  { name: 'thickness', ask: 'Thickness, measured, mm', wrong: length },
  { name: 'machine', ask: 'Machine, any name', optional: true, wrong: anything },
  { name: 'tool', ask: 'Tool: the nose, finger or die', optional: true, wrong: anything },
  {
    name: 'noseRadius',
    ask: 'Radius of the nose, mm (empty: not known)',
    optional: true,
    wrong: length,
  },
];

const STRIP: readonly Named[] = [
  {
    name: 'flat',
    ask: 'Length of the flat strip, mm (empty: no more strips)',
    optional: true,
    wrong: length,
  },
  { name: 'legA', ask: 'Leg A on the outside, mm', wrong: length },
  { name: 'legB', ask: 'Leg B on the outside, mm', wrong: length },
  {
    name: 'angle',
    ask: 'Angle the metal was turned, degrees; of a hem: closed, open or teardrop',
    wrong: angleOrHem,
  },
  {
    name: 'stopAt',
    ask: 'Angle at which you stopped, degrees (empty: not noted)',
    optional: true,
    wrong: angle,
  },
  {
    name: 'radius',
    ask: 'Inside radius by a gauge, mm (empty: not read)',
    optional: true,
    wrong: length,
  },
];

/** The question for the radius of an open or teardrop hem, which its K is worked out from. */
const HEM_RADIUS: Named = {
  name: 'radius',
  ask: 'Inside radius of the hem, mm: half the gap that it leaves',
  wrong: length,
};

/**
 * Asks for strips one by one and adds them to a YAML file. The file is made when there is none, and
 * only then are the entries at its top asked for. Strips that are complete are kept when the
 * answers end. Returns the number of strips that were added.
 */
export async function askStrips(path: string, { say, next }: Dialogue): Promise<number> {
  const document: Document = existsSync(path)
    ? parseDocument(
        await readTextFile(path, {
          input: 'strips',
          allowed: 'a YAML file of strips',
          tooLarge: 'begin a new one',
        }),
      )
    : new Document({});
  if (!isMap(document.contents) || document.contents.items.length === 0) {
    for (const question of SHARED) {
      const answer = await askOne(question, { say, next });
      if (answer === undefined) return 0;
      if (answer !== '') document.set(question.name, valueOf(answer));
    }
  }
  const known = document.get('strips');
  const strips = (isSeq(known) ? known : document.createNode([])) as YAMLSeq;
  document.set('strips', strips);
  let added = 0;
  for (
    let strip = await askStrip({ say, next });
    strip !== undefined;
    strip = await askStrip({ say, next })
  ) {
    strips.add(document.createNode(strip, { flow: true }));
    added += 1;
  }
  if (added > 0)
    saveAll(
      dirname(path),
      [{ name: basename(path), contents: document.toString({ lineWidth: 0 }), mark: '' }],
      true,
    );
  return added;
}

async function askStrip(dialogue: Dialogue): Promise<Record<string, unknown> | undefined> {
  const strip: Record<string, unknown> = {};
  for (const question of STRIP) {
    const hem = strip['hem'];
    if (
      hem !== undefined &&
      (question.name === 'stopAt' || (question.name === 'radius' && hem === 'closed'))
    )
      continue;
    const answer = await askOne(
      hem === undefined || question.name !== 'radius' ? question : HEM_RADIUS,
      dialogue,
    );
    if (answer === undefined || (question.name === 'flat' && answer === '')) return undefined;
    if (question.name === 'angle' && HEMS.includes(answer.toLowerCase()))
      strip['hem'] = answer.toLowerCase();
    else if (answer !== '') strip[question.name] = valueOf(answer);
  }
  return strip;
}

const valueOf = (answer: string): string | number =>
  /^-?\d+(\.\d+)?$/.test(answer) ? Number(answer) : answer;
