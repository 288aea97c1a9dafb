import { useState } from 'react';
import type { RailWalkAnswer } from '../../core/contract/board-calls.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { Pick } from '../parts/pick.tsx';
import { timeWords } from '../parts/time-words.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';
import { BeginHunt } from './begin-hunt.tsx';
import { GradientPanel } from './gradient-panel.tsx';
import { HuntFacts } from './hunt-facts.tsx';
import { InjectPanel } from './inject-panel.tsx';
import { useInjection } from './injection-store.ts';
import { useHunts } from './use-hunts.ts';
import './shorts.css';

interface Props {
  readonly jobId: string;
  readonly answer: RailWalkAnswer | null;
  readonly onBack: () => void;
}

/** Hunting a short along a rail: millivolts on one side, the current that makes them on the other. */
export function HuntView({ jobId, answer, onBack }: Props) {
  const { hunts, trouble } = useHunts(jobId);
  const [chosen, setChosen] = useState<string | null>(null);
  const [isNew, setNew] = useState(false);
  const injecting = useInjection((state) => state.huntId);
  const { ask } = useActions();
  const whole =
    hunts?.find(({ hunt }) => hunt.id === (injecting ?? chosen)) ?? hunts?.at(-1) ?? null;
  const isBeginning = hunts !== null && (isNew || hunts.length === 0) && injecting === null;
  return (
    <main className="rails hunt">
      <div className="rails-side">
        <header className="rails-head">
          <h1>Short hunt</h1>
          {hunts !== null && hunts.length > 1 && injecting === null && (
            <Pick
              label="Hunt"
              value={whole?.hunt.id ?? ''}
              onPick={(id) => {
                setNew(false);
                setChosen(id);
              }}
            >
              {hunts.map(({ hunt }, at) => (
                <option key={hunt.id} value={hunt.id}>
                  {at + 1}: {hunt.rail}, {timeWords(hunt.beganAt)}
                </option>
              ))}
            </Pick>
          )}
          {hunts !== null && hunts.length > 0 && injecting === null && (
            <button type="button" className="plain" onClick={() => setNew(!isNew)}>
              {isNew ? 'Back to the hunt' : 'Another hunt'}
            </button>
          )}
          <button type="button" className="plain" onClick={onBack}>
            Back to the rails <KeyCap>Z</KeyCap>
          </button>
        </header>
        {trouble !== null && (
          <p className="form-wrong" role="alert">
            {trouble.what} ({trouble.where}). {trouble.todo}
          </p>
        )}
        {hunts === null && trouble === null && <p className="quiet">Reading the hunts…</p>}
        {isBeginning && (
          <>
            <p>
              Current goes into the shorted rail, low and only while you hold; what heats, or where
              the millivolts are lowest, is the short. Output off and ohms to ground first.
            </p>
            <BeginHunt
              jobId={jobId}
              answer={answer}
              onBegun={({ hunt }) => {
                setNew(false);
                setChosen(hunt.id);
              }}
            />
          </>
        )}
        {whole !== null && !isBeginning && (
          <>
            <GradientPanel key={whole.hunt.id} whole={whole} />
            {injecting === null && (
              <p>
                <TwoPress
                  words="Delete this hunt"
                  sure="Press again: its points and readings go"
                  onSure={() => void ask('deleteHunt', { huntId: whole.hunt.id })}
                />
              </p>
            )}
          </>
        )}
      </div>
      <div className="rails-side rails-work">
        {whole !== null && !isBeginning && (
          <>
            <InjectPanel key={whole.hunt.id} hunt={whole.hunt} />
            <HuntFacts
              key={`${whole.hunt.id} ${whole.hunt.leadOhm} ${whole.hunt.meterSigmaV}`}
              hunt={whole.hunt}
            />
          </>
        )}
      </div>
    </main>
  );
}
