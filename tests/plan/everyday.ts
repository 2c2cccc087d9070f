/** What a hand at a folder says of a part before he touches it. */
export type TradeVerdict = 'by machine' | 'with hands' | 'with the bar off' | 'refused';

/** A part that every shop is asked for. */
export interface Everyday {
  readonly what: string;
  readonly family: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly verdict: TradeVerdict;
  /** Why it is refused, or in which way hands help. */
  readonly by?: RegExp;
  readonly source: string;
}

const PRACTICE = 'common practice';

const sheet = (thickness: number, material = 'dc01') => ({
  material,
  thickness,
  radius: thickness,
});

const part = (
  what: string,
  family: string,
  inputs: Readonly<Record<string, unknown>>,
  verdict: TradeVerdict,
  by?: RegExp,
  source = PRACTICE,
): Everyday => ({ what, family, inputs, verdict, source, ...(by !== undefined && { by }) });

const tray = (
  what: string,
  inputs: Readonly<Record<string, unknown>>,
  verdict: TradeVerdict,
  by?: RegExp,
): Everyday => part(what, 'tray', { length: 300, depth: 200, ...sheet(1), ...inputs }, verdict, by);

const panels = (
  what: string,
  base: string,
  flanges: readonly string[],
  verdict: TradeVerdict,
  by?: RegExp,
): Everyday => part(what, 'panels', { base, flanges, ...sheet(1) }, verdict, by);

/**
 * Everyday parts, on a small shop's folders: a finger folder for 2 mm with fingers of 100 mm, and a
 * straight one for 1.5 mm. The verdicts are those of the trade.
 */
export const EVERYDAY: readonly Everyday[] = [
  part(
    'a plain angle',
    'bracket-angle',
    { legA: 60, legB: 60, width: 300, ...sheet(1.5) },
    'by machine',
  ),
  part(
    'an angle of 5 mm, 100 wide',
    'bracket-angle',
    { legA: 60, legB: 60, width: 100, ...sheet(5, 's235') },
    'refused',
    /more than the machine takes/,
  ),
  part(
    'an angle of 12 mm, 30 wide',
    'bracket-angle',
    { legA: 80, legB: 80, width: 30, ...sheet(12, 's235') },
    'refused',
    /more than the machine takes/,
  ),
  part(
    'an angle of 3 mm, 40 wide',
    'bracket-angle',
    { legA: 60, legB: 60, width: 40, ...sheet(3, 's235') },
    'by machine',
  ),
  part(
    'an open angle',
    'bracket-angle',
    { legA: 60, legB: 60, width: 300, bendAngle: 30, ...sheet(1.5) },
    'by machine',
  ),
  part(
    'an acute angle',
    'bracket-angle',
    { legA: 60, legB: 60, width: 300, bendAngle: 120, ...sheet(1) },
    'by machine',
  ),
  part(
    'an angle past what the leaf goes to',
    'bracket-angle',
    { legA: 60, legB: 60, width: 300, bendAngle: 150, ...sheet(1) },
    'with hands',
    /rest by hand/,
  ),
  part(
    'an angle longer than any folder',
    'bracket-angle',
    { legA: 60, legB: 60, width: 2400, ...sheet(1) },
    'refused',
    /mm long/,
  ),
  part(
    'a leg of 4 mm on 2 mm sheet',
    'bracket-angle',
    { legA: 6, legB: 60, width: 200, ...sheet(2) },
    'refused',
    /mm of .* lie flat/,
  ),
  part(
    'a hemmed edge',
    'bracket-angle',
    { legA: 60, legB: 60, width: 300, ...sheet(1) },
    'by machine',
  ),
  part(
    'a shallow channel',
    'bracket-channel',
    { flangeA: 30, web: 80, flangeB: 30, width: 600, ...sheet(1.5) },
    'by machine',
  ),
  part(
    'a square channel, short',
    'bracket-channel',
    { flangeA: 50, web: 60, flangeB: 50, width: 80, ...sheet(2) },
    'by machine',
  ),
  part(
    'a channel deeper than it is wide, short',
    'bracket-channel',
    { flangeA: 70, web: 40, flangeB: 70, width: 80, ...sheet(1) },
    'with hands',
    /over a block/,
  ),
  part(
    'a channel deeper than it is wide, long',
    'bracket-channel',
    { flangeA: 70, web: 40, flangeB: 70, width: 800, ...sheet(1) },
    'refused',
    /swings into|finger space|upper beam/,
  ),
  part(
    'a U deeper than the fingers',
    'bracket-channel',
    { flangeA: 150, web: 60, flangeB: 150, width: 300, ...sheet(1.5) },
    'refused',
    /depth of 150 mm is more than the 100 mm/,
  ),
  part(
    'a zed',
    'bracket-zed',
    { flangeA: 40, offset: 40, flangeB: 40, width: 400, ...sheet(1.5) },
    'by machine',
  ),
  part(
    'a zed with a short web, long',
    'bracket-zed',
    { flangeA: 40, offset: 10, flangeB: 40, bendAngle: 45, width: 500, ...sheet(1.5) },
    'with the bar off',
    /take the bar off the leaf before/,
  ),
  part(
    'a zed with a short web, short',
    'bracket-zed',
    { flangeA: 40, offset: 20, flangeB: 40, width: 60, ...sheet(1) },
    'with hands',
  ),
  part(
    'a wide hat',
    'bracket-hat',
    { crown: 200, height: 40, footA: 20, footB: 20, width: 100, ...sheet(1.5) },
    'by machine',
  ),
  part(
    'a hat as wide as its sides',
    'bracket-hat',
    { crown: 50, height: 30, footA: 20, footB: 20, width: 100, ...sheet(1.5) },
    'with hands',
    /over a block/,
  ),
  part(
    'a narrow hat, as a saddle',
    'bracket-hat',
    { crown: 26, height: 24, footA: 24, footB: 24, width: 40, ...sheet(2) },
    'with hands',
    /over a block/,
  ),
  part(
    'a strap over a pipe',
    'strap',
    { over: 'round', across: 300, height: 320, boltCentres: 370, width: 40, ...sheet(2) },
    'by machine',
    /round a former/,
  ),
  tray('a tray with open corners', { height: 40, corner: 'open' }, 'by machine'),
  tray(
    'a tray whose corners butt at 0.5 mm',
    { height: 40, corner: 'butt', cornerGap: 0.5 },
    'by machine',
  ),
  tray(
    'a tray lapped by tabs',
    { height: 40, corner: 'lapped' },
    'with hands',
    /off the end|over a block/,
  ),
  tray(
    'a tray deeper than the fingers',
    { height: 130, corner: 'open', ...sheet(1.5) },
    'refused',
    /depth of 130 mm/,
  ),
  tray(
    'a tray with lips out',
    {
      height: 40,
      corner: 'open',
      lipFront: 'out',
      lipBack: 'out',
      lipLeft: 'out',
      lipRight: 'out',
      lipDepth: 12,
    },
    'by machine',
  ),
  tray(
    'a tray with lips in',
    {
      height: 40,
      corner: 'open',
      lipFront: 'in',
      lipBack: 'in',
      lipLeft: 'in',
      lipRight: 'in',
      lipDepth: 12,
    },
    'by machine',
  ),
  panels(
    'a panel hemmed on four sides',
    '300 x 200',
    [
      'a on bottom 10 180 up radius 0.5',
      'b on top 10 180 up radius 0.5',
      'c on left 10 180 up radius 0.5',
      'd on right 10 180 up radius 0.5',
    ],
    'by machine',
  ),
  panels(
    'a lid with a hemmed edge and sides',
    '300 x 200',
    [
      'a on bottom 30 90 up',
      'h on a end 10 180 down radius 0.5',
      'b on top 30 90 up',
      'c on left 30 90 up',
      'd on right 30 90 up',
    ],
    'with hands',
    /on packers/,
  ),
  panels(
    'a tab in the middle of an edge',
    '120 x 80',
    ['t on top 20 90 up from 50 to 70'],
    'by machine',
  ),
  panels(
    'a C with lips in',
    '80 x 300',
    ['l on left 40 90 up', 'r on right 40 90 up', 'li on l end 15 90 up', 'ri on r end 15 90 up'],
    'by machine',
  ),
  panels(
    'a short C with lips in, close',
    '45 x 60',
    ['l on left 40 90 up', 'r on right 40 90 up', 'li on l end 12 90 up', 'ri on r end 12 90 up'],
    'with hands',
  ),
  panels(
    'a shelf with a nose down and a back up',
    '200 x 400',
    ['nose on bottom 25 90 down', 'back on top 40 90 up'],
    'by machine',
  ),
  panels(
    'a drawer with a front lip',
    '250 x 200',
    [
      'f on bottom 60 90 up',
      'b on top 60 90 up',
      'l on left 60 90 up',
      'r on right 60 90 up',
      'lip on f end 15 90 down',
    ],
    'by machine',
  ),
];
