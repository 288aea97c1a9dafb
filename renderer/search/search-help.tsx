import { useActions } from '../state/use-desk.ts';

const EXAMPLES = [
  ['stalled 0.2..0.3 A main rail low', 'a stage with its amps, and a rail with what it was judged'],
  ['"no picture" liquid', 'words side by side, and liquid at intake'],
  ['cycling since 2026-10', 'a stage, and taken in from a month or a day on'],
  ['core rail <0.5 ohm', 'a rail and what it read'],
  ['~0.26 A 2026-11', 'about so much, and taken in in a month'],
  ['waiting for parts', 'also: waiting for approval, open jobs, closed jobs, comebacks'],
  ['00815', 'the end of a serial number; also #12 for a job, or the code of a bag tag'],
] as const;

/** How to ask, by example; a press puts the example into the field. */
export function SearchHelp({ onTry }: { onTry: (search: string) => void }) {
  const { ask, say } = useActions();
  const rebuild = async (): Promise<void> => {
    const jobs = await ask('rebuildSearch', {});
    if (jobs !== null) say(`The search is being made anew from ${jobs} jobs.`);
  };
  return (
    <details className="search-help">
      <summary>How to ask</summary>
      <dl>
        {EXAMPLES.map(([search, words]) => (
          <div key={search}>
            <dt>
              <button type="button" className="in-text" onClick={() => onTry(search)}>
                {search}
              </button>
            </dt>
            <dd className="quiet">{words}</dd>
          </div>
        ))}
      </dl>
      <p className="quiet">
        Everything asked for must hold; words are found by their beginnings.{' '}
        <button type="button" className="in-text" onClick={() => void rebuild()}>
          Make the search anew
        </button>{' '}
        if something that is there is not found.
      </p>
    </details>
  );
}
