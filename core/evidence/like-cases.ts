import { type Interval, wilsonInterval } from './intervals.ts';
import type { PastCase, Sight } from './past-case.ts';

/** Earlier jobs that looked like this one, and how they ended. */
export interface LikeCases {
  /** Proved cases that agree on every question both answered. */
  readonly proved: number;
  /** Of those, the ones with the cause. */
  readonly withCause: number;
  /** Wilson's 95 % for `withCause` of `proved`. */
  readonly interval: Interval;
  /** Alike, but only guessed, or never solved: shown beside, not counted in. */
  readonly guessed: number;
  readonly unsolved: number;
  /** `7 of 9 earlier boards that stalled here had a shorted capacitor (45 % to 94 %); 4 more were never solved.` */
  readonly text: string;
}

/** At least so many answers have to be shared before two jobs are alike, or all there are. */
const LEAST_SHARED = 2;

/** Counts earlier jobs alike and how many of them had the cause; `causeText` is its words. */
export function countLike(
  past: readonly PastCase[],
  sights: readonly Sight[],
  cause: string,
  causeText: string,
): LikeCases {
  const alike = past.filter((each) => isAlike(each, sights));
  const proved = alike.filter(({ proof }) => proof === 'proved');
  const withCause = proved.filter((each) => each.cause === cause).length;
  const guessed = alike.filter(({ proof }) => proof === 'guessed').length;
  const unsolved = alike.filter(({ proof }) => proof === 'unsolved').length;
  const interval = wilsonInterval(withCause, proved.length);
  return {
    proved: proved.length,
    withCause,
    interval,
    guessed,
    unsolved,
    text: sayLike({
      hits: withCause,
      count: proved.length,
      interval,
      guessed,
      unsolved,
      causeText,
      seen: sayAlike(sights),
    }),
  };
}

function isAlike({ sights }: PastCase, own: readonly Sight[]): boolean {
  if (own.length === 0) return false;
  const answers = new Map(sights.map(({ question, outcome }) => [question, outcome]));
  let shared = 0;
  for (const { question, outcome } of own) {
    const answer = answers.get(question);
    if (answer === undefined) continue;
    if (answer !== outcome) return false;
    shared += 1;
  }
  return shared >= Math.min(LEAST_SHARED, own.length);
}

/** What a board did, as it is said of boards: by its draw where that is known. */
const DID: Readonly<Record<string, string>> = {
  'no-draw': 'that drew nothing',
  'flat-low': 'that drew little and flat',
  stepping: 'that stepped up',
  stalled: 'that stalled here',
  running: 'that ran',
  'flat-high': 'that drew too much',
  creeping: 'whose draw crept',
  limited: 'that hit the limit',
  cycling: 'that restarted again and again',
  'fell-back': 'that fell back',
};

function sayAlike(sights: readonly Sight[]): string {
  const draw = sights.find(({ question }) => question === 'draw');
  const did = DID[draw?.outcome ?? ''];
  const rest = sights
    .filter(({ question, outcome }) => question === 'main-rail' && outcome !== 'present')
    .map(({ outcome }) => `with the main rail ${outcome}`);
  return [did ?? 'alike', ...(did === undefined ? [] : rest)].join(' ');
}

function sayLike(o: {
  readonly hits: number;
  readonly count: number;
  readonly interval: Interval;
  readonly guessed: number;
  readonly unsolved: number;
  readonly causeText: string;
  readonly seen: string;
}): string {
  const { hits, count, guessed, unsolved } = o;
  const more = [
    ...(unsolved > 0 ? [`${unsolved} more ${unsolved === 1 ? 'was' : 'were'} never solved`] : []),
    ...(guessed > 0 ? [`${guessed} ${guessed === 1 ? 'was' : 'were'} only guessed`] : []),
  ];
  if (count === 0) {
    return more.length === 0 ? '' : `No earlier board ${o.seen} was proved; ${more.join(', ')}.`;
  }
  const percent = (share: number) => `${Math.round(share * 100)} %`;
  const boards = count === 1 ? 'board' : 'boards';
  const had = `${hits} of ${count} earlier ${boards} ${o.seen} had ${o.causeText}`;
  const range = `${percent(o.interval.low)} to ${percent(o.interval.high)}`;
  return `${had} (${range})${more.length === 0 ? '' : `; ${more.join(', ')}`}.`;
}
