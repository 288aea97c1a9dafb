import type { JobWhole } from '../../core/job/job.ts';
import type { JobRecord, Paper } from '../../core/record/record-content.ts';
import {
  inventedJob,
  inventedRecord,
  inventedWhole,
  inventRun,
  item,
  reading,
  runAfter,
  runBefore,
  TAKEN_IN,
} from './record-job.ts';

/** Markup that would show itself on the console or empty the page if anything ran it. */
export const MARKUP = '<img src=x onerror="document.body.remove()"><script>console.log(1)</script>';
const RIGHT_TO_LEFT = 'לוח האם אינו מתעורר 19 V \u202egnp.exe';
const LONG = 'Water came in at the left edge; the shield was rusted and lifted with care. '
  .repeat(54)
  .slice(0, 3999)
  .concat('.');
const UNBROKEN = 'x'.repeat(4000);

/** A job as unkind as the ledger allows: markup, both directions, emoji, 4000-letter notes, 13 runs, 200 readings. */
export function hostileRecord(paper: Paper): JobRecord {
  const whole: JobWhole = {
    ...inventedWhole,
    job: {
      ...inventedJob,
      serialNumber: MARKUP,
      boardModel: RIGHT_TO_LEFT,
      customer: '"><b>bold</b>&amp;',
      symptom: LONG,
      promised: UNBROKEN,
      earlierRepairs: RIGHT_TO_LEFT,
      accessories: '🔌 charger 🧯',
      outcome: { ...inventedJob.outcome!, cause: LONG, provedBy: UNBROKEN, misledBy: MARKUP },
    },
    items: [
      ...inventedWhole.items,
      item({ title: MARKUP, reason: LONG, phase: RIGHT_TO_LEFT, caution: UNBROKEN }),
    ],
    readings: Array.from({ length: 200 }, (_, i) =>
      reading({
        id: `reading-${i}`,
        place: i % 7 === 0 ? MARKUP : i === 3 ? UNBROKEN.slice(0, 200) : `rail ${i % 40}`,
        value: 1 + i / 1000,
        takenAt: TAKEN_IN + i * 1000,
        expectedLow: 0.9,
        expectedHigh: 1.1,
      }),
    ),
  };
  const runs = Array.from({ length: 12 }, (_, i) =>
    i % 3 === 0
      ? runBefore({ id: `before-${i}`, role: i === 0 ? 'before' : null })
      : runAfter({ id: `after-${i}`, role: i === 11 ? 'after' : null, instrument: MARKUP }),
  );
  return inventedRecord(paper, whole, [...runs, cyclingRun()]);
}

/** Forty stages and thirty marks in a hundred seconds. */
function cyclingRun() {
  return inventRun(
    {
      id: 'cycling',
      role: null,
      pretend: false,
      limitA: 0.05,
      feed: { point: 'battery-line', cells: true, screen: true, drive: false, note: MARKUP },
    },
    Array.from({ length: 40 }, (_, i) => ({
      stage: i % 2 ? ('cycling' as const) : ('flat-low' as const),
      forS: 1 + (i % 4),
      amps: i % 2 ? 0.043 : 0.004,
      volts: 4,
      reason: MARKUP,
    })),
    Array.from({ length: 30 }, (_, i) => ({ mark: 'note' as const, atS: i * 3 + 1, text: MARKUP })),
  );
}
