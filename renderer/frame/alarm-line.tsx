import { useKey } from '../keys/use-key.ts';
import { AlarmSign } from '../parts/caution.tsx';
import { KeyCap } from '../parts/key-cap.tsx';
import { TroubleWords } from '../parts/trouble-words.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** What the bench raised by itself. Stays until a person has seen it. */
export function AlarmLine() {
  const alarms = useDeskState((state) => state.alarms);
  const { dismissAlarm } = useActions();
  useKey('seenAlarm', dismissAlarm);
  const alarm = alarms[0];
  return (
    <div role="alert" className="alarm-holder">
      {alarm !== undefined && (
        <div className="alarm-line" data-testid="alarm">
          <AlarmSign width={28} />
          <p>
            <TroubleWords trouble={alarm} />
          </p>
          <button type="button" className="on-alarm" onClick={dismissAlarm}>
            Seen{alarms.length > 1 ? `, ${alarms.length - 1} more` : ''} <KeyCap>A</KeyCap>
          </button>
        </div>
      )}
    </div>
  );
}
