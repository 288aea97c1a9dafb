import { useEffect, useState } from 'react';
import type { Customer } from '../../core/shop/job-terms.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { CustomerForm } from './customer-form.tsx';

const MOST = 200;

/** Everybody whose boards were here, and the way to forget one of them. */
export function CustomersPage() {
  const version = useDeskState((state) => state.jobsVersion);
  const { ask, say } = useActions();
  const [search, setSearch] = useState('');
  const [reads, setReads] = useState(0);
  const [found, setFound] = useState<readonly Customer[] | null>(null);
  const [editing, setEditing] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: changes are read again
  useEffect(() => {
    let isWanted = true;
    void ask('listCustomers', { search, limit: MOST }).then((told) => {
      if (isWanted && told !== null) setFound(told);
    });
    return () => {
      isWanted = false;
    };
  }, [search, version, reads, ask]);
  const erase = async (customer: Customer): Promise<void> => {
    const jobs = await ask('eraseCustomer', { id: customer.id });
    if (jobs === null) return;
    say(`Customer erased. ${jobs} of their jobs stay, without a name.`);
    setReads(reads + 1);
  };
  return (
    <section className="customers" aria-label="Customers">
      <h1>Customers</h1>
      <p className="quiet">
        Kept only to reach them. Erasing takes the name off every job and out of the search; the
        jobs stay. Backups and printed records are not reached by it.
      </p>
      <label className="field">
        Name or number
        <input
          className="field-input"
          type="search"
          maxLength={200}
          value={search}
          onChange={(event) => setSearch(event.target.value)}
        />
      </label>
      {found !== null && found.length === 0 && (
        <p className="quiet">
          {search === ''
            ? 'No customer yet. One is made when a job is taken in with a name.'
            : `Nobody begins like “${search}”.`}
        </p>
      )}
      <ol>
        {found?.map((customer) =>
          editing === customer.id ? (
            <li key={customer.id}>
              <CustomerForm
                fields={customer}
                does="Keep customer"
                onKeep={({ name, reach, note }) =>
                  void ask('saveCustomer', {
                    id: customer.id,
                    fields: { name, reach, note },
                  }).then((kept) => {
                    if (kept === null) return;
                    setEditing(null);
                    setReads(reads + 1);
                  })
                }
                onCancel={() => setEditing(null)}
              />
            </li>
          ) : (
            <li key={customer.id} className="shop-line">
              <span>
                <strong>{customer.name}</strong>
                {customer.reach !== '' && `, ${customer.reach}`}
                <span className="quiet">
                  {' '}
                  {customer.jobs === 1 ? '1 job' : `${customer.jobs} jobs`}
                  {customer.note !== '' && `. ${customer.note}`}
                </span>
              </span>
              <span className="shop-keys">
                <button type="button" className="plain" onClick={() => setEditing(customer.id)}>
                  Change<span className="heard-only"> {customer.name}</span>
                </button>
                <TwoPress
                  words="Erase"
                  sure={`Press again: ${customer.name} is forgotten`}
                  onSure={() => void erase(customer)}
                />
              </span>
            </li>
          ),
        )}
      </ol>
    </section>
  );
}
