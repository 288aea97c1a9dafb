import { useState } from 'react';
import type { Hunt } from '../../core/shorts/hunt.ts';
import { AlarmSign, Caution } from '../parts/caution.tsx';
import { useActions } from '../state/use-desk.ts';
import { EnterForm } from './enter-form.tsx';
import { HoldKey } from './hold-key.tsx';
import { InjectionReadouts } from './injection-readouts.tsx';
import { InjectionSteps } from './injection-steps.tsx';
import { useInjection } from './injection-store.ts';

/** Putting current in: what is in the way, the way in, and then one thing to hold. */
export function InjectPanel({ hunt }: { hunt: Hunt }) {
  const injection = useInjection((state) => state);
  const [isMeterAcross, setMeterAcross] = useState(false);
  const { ask } = useActions();
  const { phase, plan, purpose } = injection;
  if (phase === 'off' || plan === null) return <EnterForm hunt={hunt} />;
  return (
    <section className="injecting" aria-label="Put current in" data-phase={phase}>
      <h2>{purpose === 'leads' ? 'Measuring the leads' : `Current goes into ${injection.rail}`}</h2>
      <InjectionReadouts
        leadOhm={purpose === 'leads' ? 0 : hunt.leadOhm}
        isMeterAcross={isMeterAcross}
      />
      {phase === 'tripped' ? (
        <div className="injection-trip" role="alert">
          <AlarmSign />
          <p>
            <strong>Switched off. </strong>
            {injection.said} Look at the board before you go on.
          </p>
          <button type="button" className="plain" onClick={() => void ask('seenInjectionTrip', {})}>
            Seen: ready again, at the first step
          </button>
        </div>
      ) : (
        <HoldKey injection={injection} />
      )}
      <p className="injection-said" role="status">
        {phase === 'tripped' ? '' : injection.said}
      </p>
      {purpose === 'rail' && <InjectionSteps injection={injection} />}
      <Caution>{plan.cautions[0]}</Caution>
      {purpose === 'rail' && (
        <>
          <ul className="cautions">
            {plan.cautions.slice(1).map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
          <label className="check">
            <input
              type="checkbox"
              checked={isMeterAcross}
              onChange={(event) => setMeterAcross(event.target.checked)}
            />
            The meter’s probes sit where the leads meet the board: its volts count (four wires)
          </label>
          <details>
            <summary>Why these volts and amps</summary>
            <ul className="reasons">
              {plan.reasons.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </details>
        </>
      )}
      <button type="button" className="plain" onClick={() => void ask('leaveInjection', {})}>
        Leave: output off, {backTo(injection.before)}
      </button>
    </section>
  );
}

function backTo({ setV, limitA }: { setV: number | null; limitA: number | null }): string {
  return setV === null || limitA === null
    ? 'volts and limit as before'
    : `back to ${setV} V and ${limitA} A`;
}
