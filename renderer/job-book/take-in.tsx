import { type FormEvent, useState } from 'react';
import { type CustomerText, IntakeCustomer, NO_CUSTOMER } from '../shop/intake-customer.tsx';
import { useActions } from '../state/use-desk.ts';
import { JobForm } from './job-form.tsx';
import { EMPTY_JOB, fieldsOf, type JobText, wrongIn } from './job-text.ts';

/** Taking a board in: what it is and what it does not do is enough to begin. */
export function TakeIn() {
  const { tryAsk, ask, openJob, show, say } = useActions();
  const [text, setText] = useState<JobText>(EMPTY_JOB);
  const [customer, setCustomer] = useState<CustomerText>(NO_CUSTOMER);
  const [wrong, setWrong] = useState<string | null>(null);
  const [isBusy, setBusy] = useState(false);

  const takeIn = async (toBench: boolean): Promise<void> => {
    const mistake = wrongIn(text);
    setWrong(mistake);
    if (mistake !== null || isBusy) return;
    setBusy(true);
    const made = await tryAsk('createJob', {
      ...fieldsOf({ ...text, customer: customer.picked?.name ?? customer.name }),
      customerId: customer.picked?.id ?? null,
      customerReach: customer.reach.trim(),
    });
    setBusy(false);
    if (!made.ok) {
      setWrong(`${made.trouble.what}. ${made.trouble.todo}`);
      return;
    }
    const job = made.value;
    say(`Job ${job.number} taken in.`);
    if (job.comebackOf !== null)
      say(`Job ${job.number} is a comeback of job ${job.comebackOf.number}.`);
    openJob(job.id);
    if (toBench && (await ask('openJobOnBench', { jobId: job.id })) !== null) show('sheet');
  };

  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    void takeIn(true);
  };
  return (
    <form className="take-in" onSubmit={onSubmit} noValidate>
      <h1>Take in a job</h1>
      <p className="quiet">A few words are enough. Everything can be changed later.</p>
      <JobForm text={text} onChange={setText}>
        <IntakeCustomer text={customer} onChange={setCustomer} />
      </JobForm>
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
      <div className="form-keys">
        <button type="submit" className="plain strong">
          Take in and put on bench
        </button>
        <button type="button" className="plain" onClick={() => void takeIn(false)}>
          Take in only
        </button>
      </div>
    </form>
  );
}
