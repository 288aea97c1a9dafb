import { useEffect, useState } from 'react';
import { causeLines } from '../../core/cases/cause-tree.ts';
import type { ShopCauseTable } from '../../core/contract/evidence-calls.ts';
import type { Cause } from '../../core/evidence/cause-table.ts';
import { useActions } from '../state/use-desk.ts';
import { CauseEditor } from './cause-editor.tsx';
import { OddsEditor } from './odds-editor.tsx';

/** The shop's tree of causes and the odds they are weighed by, for editing. */
export function CausesPane() {
  const { ask } = useActions();
  const [table, setTable] = useState<ShopCauseTable | null>(null);
  const [openKey, setOpenKey] = useState<string | null>(null);
  const [under, setUnder] = useState<string | null>(null);
  const read = async (): Promise<void> => setTable(await ask('readCauseTable', {}));
  // biome-ignore lint/correctness/useExhaustiveDependencies: read once when the page is opened
  useEffect(() => void read(), []);
  if (table === null) return <p className="quiet">Reading the causes…</p>;
  const saved = async (): Promise<void> => {
    setOpenKey(null);
    setUnder(null);
    await read();
  };
  const retire = async (cause: Cause): Promise<void> => {
    const answer = await ask('retireCause', { key: cause.key, isRetired: !cause.isRetired });
    if (answer !== null) await read();
  };
  return (
    <section className="causes-pane" aria-label="Causes">
      <h1>Causes</h1>
      <p className="quiet">
        What a job can end with. A cause that is renamed or retired keeps the jobs that ended with
        it. The odds below are weighed until cases of this shop outweigh them: {table.source}.
      </p>
      <ul className="cause-tree">
        {causeLines(table.causes).map(({ cause, depth }) => {
          const count = table.outcomes[cause.key] ?? 0;
          return (
            <li key={cause.key} data-retired={cause.isRetired} style={{ marginLeft: depth * 24 }}>
              {openKey === cause.key ? (
                <CauseEditor cause={cause} causes={table.causes} onDone={() => void saved()} />
              ) : (
                <div className="cause-row">
                  <span className="cause-name">
                    {cause.text}
                    {cause.isRetired && ', retired'}
                  </span>
                  <span className="quiet">
                    {count > 0 && `${count} ${count === 1 ? 'job' : 'jobs'}`}
                  </span>
                  <button
                    type="button"
                    className="plain"
                    aria-label={`Change ${cause.text}`}
                    onClick={() => setOpenKey(cause.key)}
                  >
                    Change
                  </button>
                  <button
                    type="button"
                    className="plain"
                    aria-label={`Add under ${cause.text}`}
                    onClick={() => setUnder(cause.key)}
                  >
                    Add under it
                  </button>
                  <button
                    type="button"
                    className="plain"
                    aria-label={`${cause.isRetired ? 'Use again' : 'Retire'} ${cause.text}`}
                    onClick={() => void retire(cause)}
                  >
                    {cause.isRetired ? 'Use again' : 'Retire'}
                  </button>
                </div>
              )}
              {under === cause.key && (
                <CauseEditor
                  cause={null}
                  under={cause.key}
                  causes={table.causes}
                  onDone={() => void saved()}
                />
              )}
            </li>
          );
        })}
      </ul>
      <OddsEditor table={table} onTable={setTable} />
    </section>
  );
}
