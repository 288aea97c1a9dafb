import type { HuntWhole } from '../contract/hunt-calls.ts';
import type { Run } from '../job/job.ts';
import type { HuntReading } from '../shorts/hunt.ts';
import { formatQuantity, UNKNOWN } from '../units/format.ts';
import { formatDuration } from '../units/format-duration.ts';
import type { Fact, HuntSection } from './record-content.ts';
import type { ShopClock } from './record-time.ts';

/**
 * A job's hunts for paper: how current was put in, what each point read at each current with the
 * zero taken off, ranked, and what that says of where the current goes, or that it cannot be told.
 */
export function huntSections(
  hunts: readonly HuntWhole[],
  runs: readonly Run[],
  clock: ShopClock,
): HuntSection[] {
  return hunts.map((whole) => {
    const { hunt, found } = whole;
    const { gradient, columns, sigmaV, sigmaFrom, unread } = found;
    const own = runs.filter(({ id }) => hunt.runIds.includes(id));
    const volts = (value: number | null) => formatQuantity(value, 'V', null, { digits: 3 });
    return {
      title: `${hunt.rail}, against ${hunt.reference}`,
      facts: [
        { label: 'Begun', text: clock.dateTime(hunt.beganAt) },
        ...injectedFacts(own),
        { label: 'Leads', text: ohms(hunt.leadOhm, hunt.leadFrom) },
        { label: 'Told apart from', text: `${volts(3 * sigmaV)} up (three sigma; ${sigmaFrom})` },
      ],
      heads: heads(columns.firstA, columns.secondA),
      rows: order(whole).map(({ id, name }) => {
        const at = columns.points.find(({ pointId }) => pointId === id);
        const ranked = gradient?.ranked.find((point) => point.name === name);
        return [
          name,
          reading(at?.zero),
          reading(at?.first),
          ...(columns.secondA === null ? [] : [reading(at?.second)]),
          ranked === undefined ? UNKNOWN : formatQuantity(ranked.netV, 'V', 6, { prefix: -3 }),
          gradient !== null && gradient.verdict !== 'cannot-tell' && ranked?.isTied === true
            ? gradient.nearest.length > 1
              ? 'ties'
              : 'nearest'
            : '',
        ];
      }),
      notes: [
        gradient?.text ?? 'Too few points were read at one current to say where it goes.',
        ...(gradient?.notes ?? []),
        ...concluded(whole),
        ...(unread.length === 0 ? [] : [`Not read: ${unread.join(', ')}.`]),
      ],
    };
  });
}

/** What was written into the job, unless that is what stands above it already. */
function concluded({ hunt, found }: HuntWhole): string[] {
  const claim = hunt.finding?.claim ?? '';
  const isSaid = claim === '' || claim.startsWith(found.gradient?.text ?? claim);
  return isSaid ? [] : [`Concluded: ${claim}`];
}

function injectedFacts(runs: readonly Run[]): Fact[] {
  if (runs.length === 0) return [];
  const most = (values: readonly (number | null)[]) =>
    values.reduce<number | null>((top, v) => (v === null ? top : Math.max(top ?? v, v)), null);
  const heldS = runs.reduce((sum, { durationS }) => sum + durationS, 0);
  const base = { prefix: 0 } as const;
  const set = formatQuantity(most(runs.map(({ setV }) => setV)), 'V', null, base);
  const limit = formatQuantity(most(runs.map(({ limitA }) => limitA)), 'A', null, base);
  const times = runs.length === 1 ? 'once' : `${runs.length} times`;
  return [
    {
      label: 'Put in',
      text: `at most ${set}, limit ${limit}, ${times}, ${formatDuration(heldS)} in all`,
    },
  ];
}

function heads(firstA: number | null, secondA: number | null): string[] {
  const amps = (value: number | null) => formatQuantity(value, 'A', null, { prefix: 0, digits: 3 });
  return [
    'Point',
    'No current',
    firstA === null ? 'With current' : `At ${amps(firstA)}`,
    ...(secondA === null ? [] : [`At ${amps(secondA)}`]),
    'Drop, zero taken off',
    'Where it goes',
  ];
}

/** The lowest drop first, then what was not ranked as it was taken. */
function order({ hunt, found }: HuntWhole) {
  const names = found.gradient?.ranked.map(({ name }) => name) ?? [];
  const rank = (name: string) => (names.includes(name) ? names.indexOf(name) : names.length);
  return hunt.points.toSorted((a, b) => rank(a.name) - rank(b.name));
}

function reading(taken: HuntReading | null | undefined): string {
  if (taken === null || taken === undefined) return UNKNOWN;
  return formatQuantity(taken.volts, 'V', taken.decimals, { prefix: -3 });
}

function ohms(leadOhm: number | null, from: string): string {
  if (leadOhm === null) return 'not measured';
  return `${formatQuantity(leadOhm, 'Ω', null, { digits: 3 })} both, ${from}`;
}
