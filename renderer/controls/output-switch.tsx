import { type KeyboardEvent, type MouseEvent, useEffect, useRef, useState } from 'react';
import { formatQuantity } from '../../core/units/format.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import type { DeskState } from '../state/desk.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { usePedalSwitch } from './use-pedal-switch.ts';

/** A second press sooner than this is the same press bouncing. */
const BOUNCE_MS = 350;
/** An armed switch that nobody confirms goes back to sleep. */
const ARMED_MS = 20_000;

/** Output on in two presses: the first arms and says what will be switched on, Enter confirms. */
export function OutputSwitch() {
  const link = useDeskState((state) => state.bench?.supply.link ?? 'none');
  const isOn = useDeskState((state) => state.bench?.supply.outputOn === true);
  const volts = useDeskState((state) => setWords(state, 'V'));
  const amps = useDeskState((state) => setWords(state, 'A'));
  const { ask, say } = useActions();
  const button = useRef<HTMLButtonElement | null>(null);
  const [armedAt, setArmedAt] = useState<number | null>(null);

  useEffect(() => {
    if (isOn) setArmedAt(null);
  }, [isOn]);
  useEffect(() => {
    if (armedAt === null) return;
    const timer = setTimeout(() => setArmedAt(null), ARMED_MS);
    return () => clearTimeout(timer);
  }, [armedAt]);

  const arm = (): void => {
    if (isOn) return;
    button.current?.focus();
    setArmedAt(performance.now());
    say(`Armed: Enter switches on ${volts}, limit ${amps}.`);
  };
  useKey('outputOn', arm);

  const confirm = (): void => {
    if (armedAt === null || performance.now() - armedAt <= BOUNCE_MS) return;
    setArmedAt(null);
    void ask('outputOn', {});
  };
  usePedalSwitch(armedAt !== null && !isOn, confirm);

  const onClick = (event: MouseEvent): void => {
    if (isOn) return;
    if (armedAt === null) arm();
    else if (event.detail < 2) confirm();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') setArmedAt(null);
    // A held key repeats: it must not confirm what it has just armed.
    if (event.repeat) event.preventDefault();
  };

  const isArmed = armedAt !== null;
  return (
    <button
      ref={button}
      type="button"
      className="output-on"
      data-armed={isArmed}
      aria-disabled={isOn || link !== 'live'}
      onClick={onClick}
      onKeyDown={onKeyDown}
      onBlur={() => setArmedAt(null)}
    >
      {isArmed ? (
        <>
          <span>Switch on {volts}</span>
          <span className="output-on-below">limit {amps}: Enter, or press again</span>
        </>
      ) : isOn ? (
        <span>Output is on</span>
      ) : (
        <span>
          Output on <KeyCap>O</KeyCap>
        </span>
      )}
    </button>
  );
}

/** A set-point as the supply shows it. */
function setWords({ bench }: DeskState, unit: 'V' | 'A'): string {
  const supply = bench?.supply;
  return unit === 'V'
    ? formatQuantity(supply?.setV ?? null, 'V', supply?.voltsDecimals ?? 2, { prefix: 0 })
    : formatQuantity(supply?.limitA ?? null, 'A', supply?.ampsDecimals ?? 3, { prefix: 0 });
}
