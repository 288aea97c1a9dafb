import type { JobWhole } from './job.ts';
import { foldText } from './search-words.ts';

/**
 * Everything that a search looks in, folded: the job's facts, its items' notes, where readings were
 * taken, parts, the outcome and notes on runs.
 */
export function searchTextOf(whole: JobWhole, runNotes: readonly string[]): string {
  const { job } = whole;
  const texts = [
    job.boardModel ?? '',
    job.serialNumber,
    // As people type it from a label: without the spaces.
    job.serialNumber.replace(/\s+/gu, ''),
    job.customer,
    job.symptom,
    job.earlierRepairs,
    job.accessories,
    job.promised,
    ...whole.items.map((item) => item.reason),
    ...whole.readings.map((reading) => reading.place),
    ...whole.parts.flatMap((p) => [p.designator, p.kind, p.value, p.rail, p.stateFound, p.from]),
    ...(job.outcome === null
      ? []
      : [job.outcome.cause, job.outcome.provedBy, job.outcome.misledBy]),
    ...whole.runs.map((run) => run.feed.note),
    ...runNotes,
  ];
  const words = texts.map((text) => text.trim()).filter((text) => text !== '');
  return foldText([...new Set(words)].join('\n'));
}
