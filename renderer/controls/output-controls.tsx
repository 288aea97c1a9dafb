import { memo } from 'react';
import { GuardKey } from '../guard/guard-key.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { FeedRow } from './feed-row.tsx';
import { MarkControls } from './mark-controls.tsx';
import { OutputSwitch } from './output-switch.tsx';
import { SetField } from './set-field.tsx';

/** What the hands do to a run, at the foot of the sheet. */
export const OutputControls = memo(function OutputControls() {
  const setV = useDeskState((state) => state.bench?.supply.setV ?? null);
  const limitA = useDeskState((state) => state.bench?.supply.limitA ?? null);
  const voltsDecimals = useDeskState((state) => state.bench?.supply.voltsDecimals ?? 2);
  const ampsDecimals = useDeskState((state) => state.bench?.supply.ampsDecimals ?? 3);
  const board = useDeskState((state) => state.job?.job.board ?? null);
  const { tryAsk } = useActions();
  return (
    <section className="output-controls" aria-label="Output and marks">
      <div className="control-row">
        <SetField
          name="Set volts"
          unit="V"
          value={setV}
          decimals={voltsDecimals}
          keyAction="setVolts"
          keyShown="V"
          stated={board?.statedInputV ?? null}
          onSet={(volts, confirmed) => tryAsk('setVolts', { volts, confirmed })}
        />
        <SetField
          name="Current limit"
          unit="A"
          value={limitA}
          decimals={ampsDecimals}
          keyAction="setLimit"
          keyShown="L"
          stated={board?.statedLimitA ?? null}
          onSet={(amps) => tryAsk('setLimit', { amps })}
        />
        <OutputSwitch />
        <MarkControls />
        <GuardKey />
      </div>
      <FeedRow />
    </section>
  );
});
