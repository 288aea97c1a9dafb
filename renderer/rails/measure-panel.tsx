import { useRef, useState } from 'react';
import type { BoardModel } from '../../core/rails/board-model.ts';
import { MeterNow } from '../checklist/meter-now.tsx';
import { QUANTITY_WORDS } from '../checklist/meter-reading.tsx';
import { useKey } from '../keys/use-key.ts';
import { Caution } from '../parts/caution.tsx';
import { KeyCap } from '../parts/key-cap.tsx';
import { Pick } from '../parts/pick.tsx';
import { useDeskState } from '../state/use-desk.ts';
import { AIM_WORDS, keyOf, type ProbeAim, quantityOf, sayAim } from './probe-aim.ts';
import { TypedValue } from './typed-value.tsx';
import { useHandsFree } from './use-hands-free.ts';
import type { Probe } from './use-probe.ts';

interface Props {
  readonly board: BoardModel;
  readonly aim: ProbeAim;
  readonly probe: Probe;
  readonly onAim: (aim: ProbeAim) => void;
  /** Something was kept or cannot be reached: the next point is up. */
  readonly onDone: () => void;
}

/** The point that is measured now: any point, in any order; the advice only fills it in. */
export function MeasurePanel({ board, aim, probe, onAim, onDone }: Props) {
  const [isTyping, setTyping] = useState(false);
  const [isHandsFree, setHandsFree] = useState(false);
  const isFed = useDeskState((state) => state.bench?.supply.outputOn === true);
  const meterQuantity = useDeskState((state) =>
    state.bench?.meter.link === 'live' ? state.bench.meter.quantity : null,
  );
  const isMeterLive = useDeskState((state) => state.bench?.meter.link === 'live');
  const quantity = quantityOf(aim);
  const rail = board.rails.find(({ name }) => name === aim.rail);
  const isHeldBack = quantity !== 'volts' && isFed;
  const take = async (): Promise<void> => {
    if (!isHeldBack && (await probe.take(aim))) onDone();
  };
  const cannotReach = async (): Promise<void> => {
    await probe.cannotReach(aim, true);
    onDone();
  };
  useKey('takeReading', () => void take());
  useKey('typeReading', () => setTyping(true));
  useKey('cannotReach', () => void cannotReach());
  useKey('handsFree', () => setHandsFree(!isHandsFree));
  const before = useRef<ProbeAim | null>(null);
  const why = useHandsFree(isHandsFree && !isTyping, aim, (taken, again) => {
    const at = again ? (before.current ?? aim) : aim;
    before.current = at;
    const { value, overload, decimals } = taken;
    void probe.keep(at, { value, overload, decimals }, 'meter').then((isKept) => {
      if (isKept && !again) onDone();
    });
  });
  const isOtherFunction = isMeterLive && meterQuantity !== quantity;

  return (
    <section className="measure" aria-label="Measure">
      <div className="measure-picks">
        <Pick
          label="Rail"
          value={aim.rail}
          onPick={(name) => onAim({ ...aim, rail: name, other: null, what: plainWhat(aim) })}
        >
          {board.rails.map(({ name }) => (
            <option key={name}>{name}</option>
          ))}
        </Pick>
        <Pick
          label="What"
          value={aim.what}
          onPick={(picked) => {
            const what = (Object.keys(AIM_WORDS) as ProbeAim['what'][]).find(
              (one) => one === picked,
            );
            if (what === undefined) return;
            const other = what === 'between' ? firstOther(board, aim.rail) : null;
            onAim({ rail: aim.rail, what, other });
          }}
        >
          {Object.entries(AIM_WORDS).map(([what, words]) => (
            <option key={what} value={what}>
              {words}
            </option>
          ))}
        </Pick>
        {aim.what === 'between' && (
          <Pick label="To" value={aim.other ?? ''} onPick={(other) => onAim({ ...aim, other })}>
            {board.rails
              .filter(({ name }) => name !== aim.rail)
              .map(({ name }) => (
                <option key={name}>{name}</option>
              ))}
          </Pick>
        )}
      </div>
      <h2>{sayAim(aim, rail)}</h2>
      {quantity !== 'volts' && (
        <Caution>
          Output off and the rail discharged: check its volts first, every time. Cells unplugged.
        </Caution>
      )}
      {isHeldBack && (
        <p className="meter-none">
          Switch the output off first (F9): {quantity} only on a dead rail.
        </p>
      )}
      {quantity === 'volts' && !isFed && (
        <p className="quiet">
          The output is off: volts are judged as those of a board that is not fed.
        </p>
      )}
      {!isTyping && !isMeterLive && (
        <p className="meter-none">No meter is connected: type what yours shows.</p>
      )}
      {!isTyping && isMeterLive && (
        <div className="measure-meter">
          {isOtherFunction && (
            <p className="quiet">
              The meter is in{' '}
              {meterQuantity === null ? 'no function' : QUANTITY_WORDS[meterQuantity]}.
            </p>
          )}
          <MeterNow />
        </div>
      )}
      {isTyping ? (
        <TypedValue
          key={keyOf(aim)}
          quantity={quantity}
          onCancel={() => setTyping(false)}
          onSave={async (value) => {
            if (!(await probe.keep(aim, value, 'typed'))) return;
            setTyping(false);
            onDone();
          }}
        />
      ) : (
        <div className="measure-keys">
          <button
            type="button"
            className="plain strong"
            aria-disabled={isHeldBack || !isMeterLive}
            onClick={() => void take()}
          >
            {isOtherFunction ? `Put the meter in ${QUANTITY_WORDS[quantity]}` : 'Take reading'}{' '}
            <KeyCap>R</KeyCap>
          </button>
          <button type="button" className="plain" onClick={() => setTyping(true)}>
            Type it <KeyCap>T</KeyCap>
          </button>
          <button
            type="button"
            className="plain"
            aria-pressed={isHandsFree}
            onClick={() => setHandsFree(!isHandsFree)}
          >
            Hands free <KeyCap>H</KeyCap>
          </button>
          <button type="button" className="plain" onClick={() => void cannotReach()}>
            Cannot reach it <KeyCap>C</KeyCap>
          </button>
        </div>
      )}
      {isHandsFree && (
        <p className="quiet" role="status">
          {why ??
            'Taken by itself once the touch has settled. A dead rail and an open line want a key.'}
        </p>
      )}
    </section>
  );
}

/** Another rail has its own neighbours: ohms between two start again as ohms to ground. */
const plainWhat = ({ what }: ProbeAim): ProbeAim['what'] => (what === 'between' ? 'ohms' : what);

function firstOther(board: BoardModel, rail: string): string | null {
  const own = board.rails.find(({ name }) => name === rail);
  return own?.fedBy[0] ?? board.rails.find(({ name }) => name !== rail)?.name ?? null;
}
