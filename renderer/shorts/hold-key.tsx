import type { InjectionState } from '../../core/contract/injection-calls.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useHold } from './use-hold.ts';

/** The one thing to hold. Its words say what the output does now and what letting go does. */
export function HoldKey({ injection }: { injection: InjectionState }) {
  const { phase, leftS } = injection;
  const isOn = phase === 'running';
  const { press, release } = useHold(phase === 'ready' || isOn);
  return (
    <button
      type="button"
      className="hold-key"
      data-on={isOn}
      aria-disabled={phase === 'tripped'}
      aria-pressed={isOn}
      onPointerDown={(event) => {
        if (event.button !== 0 || phase !== 'ready') return;
        event.currentTarget.setPointerCapture(event.pointerId);
        press();
      }}
      onPointerUp={release}
      onPointerCancel={release}
      onLostPointerCapture={release}
      onContextMenu={(event) => event.preventDefault()}
    >
      <span className="hold-word">
        {isOn ? 'On: let go to switch off' : 'Off: hold to put current in'}
      </span>
      <span className="hold-below">
        {isOn && leftS !== null ? (
          <>off by itself in {Math.ceil(leftS)} s</>
        ) : (
          <>
            <KeyCap>F8</KeyCap> or the pedal, or a finger here. Let go at any time.
          </>
        )}
      </span>
    </button>
  );
}
