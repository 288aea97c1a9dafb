import type { PartFacts } from '../donors/donor-board.ts';
import type { JobWhole } from '../job/job.ts';
import type { JobTerms } from '../shop/job-terms.ts';
import { agreedLines } from './agreed-lines.ts';
import { fitLines } from './fit-lines.ts';
import type { RecordRun } from './job-record.ts';
import { lookOutFor, proofLines, undoneLines, workLines, wrongLines } from './plain-words.ts';
import type { CustomerPage, PictureGroup } from './record-content.ts';
import type { ShopClock } from './record-time.ts';

/** Until when the shop stands for its work. */
export interface Warranty {
  /** `2026-05-24`; null = no date was given. */
  readonly until: string | null;
  readonly note: string;
}

/** Rows of text that the page holds without a picture, and with one. */
const ROWS = 44;
const ROWS_WITH_PICTURES = 31;

/**
 * The first page: what was wrong, what was done, how it was proved, what was not, what to look out
 * for and the warranty, each from what was recorded and in words for somebody who never sat at a
 * bench. It always fits one page: long texts are cut and stand whole on the pages behind.
 */
export function customerPage(o: {
  readonly whole: JobWhole;
  readonly runs: readonly RecordRun[];
  readonly partFacts: readonly PartFacts[];
  readonly groups: readonly PictureGroup[];
  readonly warranty: Warranty | null;
  /** Left out = nothing was agreed. */
  readonly terms?: JobTerms | null;
  readonly clock: ShopClock;
}): CustomerPage {
  const { whole, runs, partFacts, groups, clock } = o;
  const sections = [
    { title: 'What was wrong', lines: wrongLines(whole.job) },
    { title: 'What was done', lines: workLines(whole, partFacts) },
    { title: 'How it was proved', lines: proofLines(whole, runs) },
    { title: 'What was not done or not checked', lines: undoneLines(whole, partFacts) },
    { title: 'What to look out for', lines: lookOutFor(whole) },
    { title: 'What was agreed', lines: agreedLines(o.terms ?? null, clock) },
    { title: 'Warranty', lines: warrantyLines(o.warranty, clock) },
  ].filter(({ lines }) => lines.length > 0);
  const shown = tellingPictures(groups);
  const beside = fitLines(sections, ROWS_WITH_PICTURES);
  const hasRoom = shown.length > 0 && !beside.isCut && beside.rows <= ROWS_WITH_PICTURES;
  const fitted = hasRoom ? beside : fitLines(sections, ROWS);
  const name = o.terms?.customer?.name ?? whole.job.customer;
  return {
    name: name.trim(),
    sections: fitted.sections,
    figures: hasRoom ? shown : [],
    isCut: fitted.isCut,
  };
}

/** A pair tells most; else a picture with a mark on it. */
function tellingPictures(groups: readonly PictureGroup[]): PictureGroup['figures'] {
  const pair = groups.find(({ isPair }) => isPair);
  const marked = groups.find(({ figures }) => figures.some(({ marks }) => marks.length > 0));
  return (pair ?? marked)?.figures ?? [];
}

function warrantyLines(warranty: Warranty | null, clock: ShopClock): string[] {
  if (warranty === null) return [];
  const { until, note } = warranty;
  const day = until === null ? Number.NaN : Date.parse(`${until}T12:00:00Z`);
  return [
    ...(Number.isFinite(day) ? [`On this repair, until ${clock.date(day)}.`] : []),
    ...(note.trim() === '' ? [] : [note.trim()]),
  ];
}
