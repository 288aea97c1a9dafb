import { useState } from 'react';
import type { Job } from '../../core/job/job.ts';
import type { JobTerms, ShopSettings } from '../../core/shop/job-terms.ts';
import { useActions } from '../state/use-desk.ts';
import { CustomerForm } from './customer-form.tsx';
import { JobCharges } from './job-charges.tsx';
import { JobQuotes } from './job-quotes.tsx';
import { JobWarranty } from './job-warranty.tsx';
import { KnownCustomers } from './known-customers.tsx';

interface Props {
  readonly job: Job;
  readonly terms: JobTerms;
  readonly shop: ShopSettings;
}

/** The side of a job that its customer sees: who, what was agreed, what it costs, for how long it holds. */
export function JobCustomer({ job, terms, shop }: Props) {
  return (
    <section className="job-customer" aria-label="Customer and money" data-place="customer">
      <h2>Customer and money</h2>
      <Who job={job} terms={terms} />
      <JobQuotes terms={terms} shop={shop} />
      <JobCharges terms={terms} shop={shop} />
      <JobWarranty job={job} terms={terms} shop={shop} />
    </section>
  );
}

function Who({ job, terms }: { job: Job; terms: JobTerms }) {
  const { ask } = useActions();
  const [doing, setDoing] = useState<'read' | 'choose' | 'change'>('read');
  const [typed, setTyped] = useState('');
  const { customer } = terms;
  const give = async (customerId: string | null): Promise<void> => {
    if ((await ask('giveCustomer', { jobId: job.id, customerId })) !== null) setDoing('read');
  };
  if (doing === 'change' && customer !== null) {
    return (
      <CustomerForm
        fields={customer}
        does="Keep customer"
        onKeep={(fields) =>
          void ask('saveCustomer', {
            id: customer.id,
            fields: { name: fields.name, reach: fields.reach, note: fields.note },
          }).then((kept) => kept !== null && setDoing('read'))
        }
        onCancel={() => setDoing('read')}
      />
    );
  }
  if (doing === 'choose') {
    return (
      <>
        <label className="field">
          Name or number of a known customer
          <input
            className="field-input"
            autoComplete="off"
            maxLength={200}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />
        </label>
        <KnownCustomers typed={typed} onPick={(one) => void give(one.id)} />
        <CustomerForm
          fields={{ name: job.customer, reach: '', note: '' }}
          does="Make a new customer"
          onKeep={(fields) =>
            void ask('saveCustomer', { id: null, fields }).then(async (made) => {
              if (made !== null) await give(made.id);
            })
          }
          onCancel={() => setDoing('read')}
        />
      </>
    );
  }
  return (
    <div className="shop-line" data-ref="customer">
      {customer === null ? (
        <span>
          {job.customer === '' ? (
            <span className="quiet">No customer given.</span>
          ) : (
            <>
              <strong>{job.customer}</strong>{' '}
              <span className="quiet">as written at intake; not among the customers</span>
            </>
          )}
        </span>
      ) : (
        <span>
          <strong>{customer.name}</strong>
          {customer.reach !== '' && `, ${customer.reach}`}
          {customer.note !== '' && <span className="quiet"> {customer.note}</span>}
        </span>
      )}
      <span className="shop-keys">
        {customer !== null && (
          <button type="button" className="plain" onClick={() => setDoing('change')}>
            Change
          </button>
        )}
        <button type="button" className="plain" onClick={() => setDoing('choose')}>
          {customer === null ? 'Give it a customer' : 'Somebody else'}
        </button>
        {customer !== null && (
          <button type="button" className="plain" onClick={() => void give(null)}>
            Take off the job
          </button>
        )}
      </span>
    </div>
  );
}
