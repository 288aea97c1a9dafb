import { type FormEvent, useState } from 'react';
import type { DonorMatch, DonorSearch, PartFacts } from '../../core/donors/donor-board.ts';
import type { Part } from '../../core/job/job.ts';
import { DonorMatches } from '../donors/donor-matches.tsx';
import { timeWords } from '../parts/time-words.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { TiedPicture } from '../pictures/tied-picture.tsx';
import { useActions } from '../state/use-desk.ts';
import { PartMore } from './part-more.tsx';

interface Props {
  readonly part: Part;
  readonly facts: PartFacts | null;
  readonly jobNumber: number;
  readonly onChange: () => void;
}

const PLACE_WORDS = {
  fitted: null,
  'put-back': 'The same part was put back.',
  'stays-off': 'Stays off, as agreed.',
  'off-for-a-test': 'Off for a test: the job cannot close until this is decided.',
  undecided: 'Nothing fitted there yet: the job cannot close until this is decided.',
} as const;

/** One part of a job: what was done, what became of its place, and what can be done about it. */
export function PartLine({ part, facts, jobNumber, onChange }: Props) {
  const { ask, say } = useActions();
  const [found, setFound] = useState<DonorSearch | null>(null);
  const [isAgreeing, setAgreeing] = useState(false);
  const place = facts?.place ?? null;
  const isOff = place === 'off-for-a-test' || place === 'undecided';
  const name = part.designator;
  const find = async (): Promise<void> => setFound(await ask('findDonor', { partId: part.id }));
  const take = async ({ donorId, part: donor }: DonorMatch): Promise<void> => {
    const { jobId } = part;
    const taken = await ask('takeFromDonor', {
      donorId,
      designator: donor.designator,
      jobId,
      place: part.designator.slice(0, 200),
    });
    if (taken === null) return;
    setFound(null);
    say(
      `${donor.designator} taken, fitted as ${part.designator}. The points from before are asked.`,
    );
  };
  const putBack = async (): Promise<void> => {
    if ((await ask('putPartBack', { id: part.id })) !== null) {
      say(`${name} put back. The points from before are asked again.`);
    }
  };
  const test = async (): Promise<void> => {
    if (facts === null) return;
    const details = { ...facts.details, leftOff: 'for-a-test' as const };
    await ask('keepPartDetails', { partId: part.id, details });
  };
  return (
    <li className="part-line" data-off={isOff} data-ref={part.id}>
      <strong>{part.action === 'lifted' ? 'Lifted' : 'Fitted'}</strong>
      <span>{name}</span>
      <span>{[part.kind, part.value].filter(Boolean).join(' ')}</span>
      <span className="quiet">
        {[part.rail && `on ${part.rail}`, part.stateFound, part.from && `from ${part.from}`]
          .filter(Boolean)
          .join(', ')}
      </span>
      <span className="quiet">{timeWords(part.at)}</span>
      <button type="button" className="plain" onClick={onChange}>
        Change<span className="heard-only"> {name}</span>
      </button>
      {place !== null && PLACE_WORDS[place] !== null && (
        <p className={isOff ? 'part-off' : 'quiet part-place'}>
          {PLACE_WORDS[place]}
          {place === 'stays-off' &&
            ` ${facts?.details.decision ?? ''}${facts?.details.agreedBy ? `; agreed: ${facts.details.agreedBy}` : ''}`}
        </p>
      )}
      <div className="form-keys part-keys">
        {isOff && (
          <>
            <button type="button" className="plain strong" onClick={() => void find()}>
              Find a donor<span className="heard-only"> for {name}</span>
            </button>
            <button type="button" className="plain" onClick={() => void putBack()}>
              Put it back<span className="heard-only"> {name}</span>
            </button>
            {place === 'undecided' && (
              <button type="button" className="plain" onClick={() => void test()}>
                Run without it for a test<span className="heard-only"> {name}</span>
              </button>
            )}
            <button type="button" className="plain" onClick={() => setAgreeing(!isAgreeing)}>
              It stays off<span className="heard-only"> {name}</span>
            </button>
          </>
        )}
        <TiedPicture
          jobId={part.jobId}
          kind="part"
          tie={{ partId: part.id }}
          words="Add a picture"
          of={name}
        />
        <TwoPress
          words={`Take the line back`}
          sure={`Press again: ${name} was no part`}
          onSure={() => void ask('forgetPart', { id: part.id })}
        />
      </div>
      {isAgreeing && isOff && facts !== null && (
        <StaysOff part={part} facts={facts} onDone={() => setAgreeing(false)} />
      )}
      {found !== null && (
        <DonorMatches found={found} jobNumber={jobNumber} onTake={(match) => void take(match)} />
      )}
      {facts !== null && <PartMore part={part} facts={facts} />}
    </li>
  );
}

/** A part stays off only for a reason and with the customer's agreement. */
function StaysOff(props: { part: Part; facts: PartFacts; onDone: () => void }) {
  const { part, facts, onDone } = props;
  const { ask } = useActions();
  const [decision, setDecision] = useState(facts.details.decision);
  const [agreedBy, setAgreedBy] = useState(facts.details.agreedBy);
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const details = { ...facts.details, leftOff: 'for-good' as const, decision, agreedBy };
    if ((await ask('keepPartDetails', { partId: part.id, details })) !== null) onDone();
  };
  return (
    <form
      className="stays-off"
      aria-label={`${part.designator} stays off`}
      onSubmit={(event) => void onSubmit(event)}
    >
      <label className="field">
        Why the board does without it
        <input
          className="field-input"
          // biome-ignore lint/a11y/noAutofocus: opened by a press, the next thing is to type
          autoFocus
          maxLength={4000}
          placeholder="one of six in a bulk bank"
          value={decision}
          onChange={(event) => setDecision(event.target.value)}
        />
      </label>
      <label className="field">
        Who agreed, and how
        <input
          className="field-input"
          maxLength={200}
          placeholder="customer, by phone"
          value={agreedBy}
          onChange={(event) => setAgreedBy(event.target.value)}
        />
      </label>
      <button type="submit" className="plain strong">
        Keep: it stays off
      </button>
    </form>
  );
}
