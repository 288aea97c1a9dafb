import { type FormEvent, useEffect, useState } from 'react';
import type { HuntPlan } from '../../core/contract/hunt-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import type { Hunt } from '../../core/shorts/hunt.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { Caution } from '../parts/caution.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Where the leads are when their tips are on each other. */
const TOGETHER = 'each other';
const MOST_V = 60;
const MOST_A = 8;

/** The way into injecting: the plan with its reasons, what is in the way, and what a person has to say. */
export function EnterForm({ hunt }: { hunt: Hunt }) {
  const { tryAsk, say } = useActions();
  const [isMoved, setMoved] = useState(false);
  const [isCellOff, setCellOff] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const cells = useDeskState((state) => state.bench?.feed.cells === true);
  const isOn = useDeskState((state) => state.bench?.supply.outputOn === true);
  const link = useDeskState((state) => state.bench?.supply.link ?? 'none');
  const isOnBench = useDeskState((state) => state.bench?.jobId === hunt.jobId);
  const planned = usePlan(hunt, cells ? true : isCellOff ? false : null);
  const enter = async (purpose: 'rail' | 'leads'): Promise<void> => {
    const answer = await tryAsk('enterInjection', {
      huntId: hunt.id,
      purpose,
      leadsAt: purpose === 'leads' ? TOGETHER : isMoved ? hunt.rail : '',
      cellsOff: isCellOff,
    });
    setTrouble(answer.ok ? null : answer.trouble);
    if (answer.ok) say(`Ready at ${hunt.rail}: hold F8 or the pedal to put current in.`);
  };
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    void enter('rail');
  };
  const plan = planned?.plan ?? null;
  const ahead = plan?.ok === false ? plan.refusals : [];
  return (
    <section className="injecting" aria-label="Put current in" data-phase="off">
      <h2>Put current in at {hunt.rail}</h2>
      {!isOnBench && (
        <p className="quiet">This job is not on the bench: put it there to inject for it.</p>
      )}
      {link !== 'live' && (
        <p className="meter-none">No supply answers: connect one under Instruments (F4).</p>
      )}
      {isOn && (
        <p className="meter-none">
          The output is on: switch it off (F9) before the leads are moved.
        </p>
      )}
      {plan?.ok === true && (
        <>
          <dl className="plan-figures">
            <div>
              <dt>Starts at</dt>
              <dd>{formatQuantity(plan.startV, 'V', null, { prefix: 0 })}</dd>
            </div>
            <div>
              <dt>Never above</dt>
              <dd>
                {formatQuantity(plan.ceilingV, 'V', null, { prefix: 0 })} and{' '}
                {formatQuantity(plan.guard.mostA, 'A', null, { prefix: 0 })}
              </dd>
            </div>
            <div>
              <dt>Limit, by a press each</dt>
              <dd>{plan.steps.map(({ limitA }) => limitA).join(', ')} A</dd>
            </div>
          </dl>
          <ul className="reasons">
            {plan.reasons.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </>
      )}
      {ahead.length > 0 && (
        <ul className="refusals" aria-label="In the way">
          {ahead.map(({ text, todo }) => (
            <li key={text}>
              <strong>{text}</strong> {todo}
            </li>
          ))}
        </ul>
      )}
      <Caution>
        Cells and peripherals unplugged, big capacitors discharged. The supply’s own over-voltage
        trip set low where it has one. Your shop’s and your country’s rules come first.
      </Caution>
      <form className="enter-injection" aria-label="Ready to inject" onSubmit={onSubmit}>
        <label className="check">
          <input
            type="checkbox"
            checked={isMoved}
            onChange={(event) => setMoved(event.target.checked)}
          />
          The leads are off the input and at {hunt.rail} and its ground: I looked twice
        </label>
        <label className="check">
          <input
            type="checkbox"
            checked={isCellOff && !cells}
            disabled={cells}
            onChange={(event) => setCellOff(event.target.checked)}
          />
          {cells
            ? 'A cell is marked attached on the power-up sheet: unplug it, then take the mark off'
            : 'No cell is attached, coin cells included'}
        </label>
        <div className="form-keys">
          <button type="submit" className="plain strong">
            Leads are moved: make it ready
          </button>
          <button type="button" className="plain" onClick={() => void enter('leads')}>
            Measure the leads, tips on each other
          </button>
        </div>
        {trouble !== null && (
          <p className="form-wrong" role="alert">
            {trouble.what}. {trouble.todo}
          </p>
        )}
      </form>
    </section>
  );
}

/** What injecting would be like now, planned again when something that it rests on changes. */
function usePlan(hunt: Hunt, cellAttached: boolean | null): HuntPlan | null {
  const { tryAsk } = useActions();
  const version = useDeskState((state) => state.jobsVersion);
  const maxV = useDeskState((state) => state.bench?.supply.maxV ?? null);
  const maxA = useDeskState((state) => state.bench?.supply.maxA ?? null);
  const [planned, setPlanned] = useState<HuntPlan | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job or hunt is planned again
  useEffect(() => {
    let isWanted = true;
    const supply = { mostV: maxV ?? MOST_V, mostA: maxA ?? MOST_A };
    void tryAsk('planHunt', { huntId: hunt.id, supply, cellAttached }).then((answer) => {
      if (isWanted && answer.ok) setPlanned(answer.value);
    });
    return () => {
      isWanted = false;
    };
  }, [hunt, cellAttached, maxV, maxA, version, tryAsk]);
  return planned;
}
