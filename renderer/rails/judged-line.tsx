import type { JudgedReading } from '../../core/rails/rail-reading.ts';
import { formatReading } from '../../core/units/format-reading.ts';
import { timeWords } from '../parts/time-words.ts';
import { VerdictSign } from './verdict-sign.tsx';

interface Props {
  readonly judged: JudgedReading;
  readonly isGood: boolean;
  readonly onGood: (good: boolean) => void;
}

const POINT_WORDS = { output: '', input: 'input, ', enable: 'enable, ' } as const;

/** A reading with its verdict, the arithmetic, the reason and where the limits come from. */
export function JudgedLine({ judged, isGood, onGood }: Props) {
  const { reading, verdict, isOdd, arithmetic, reason, source } = judged;
  const teaches = reading.quantity !== 'volts' && reading.point === 'output' && !reading.overload;
  return (
    <div className="judged">
      <p>
        <VerdictSign verdict={verdict} isOdd={isOdd} against={reading.against} />{' '}
        <strong className="number">{formatReading({ ...reading, decimals: null })}</strong>{' '}
        <span className="quiet">
          {POINT_WORDS[reading.point]}
          {reading.against === null ? reading.quantity : `ohms to ${reading.against}`}
          {reading.state === null ? '' : `, ${reading.state}`}, {timeWords(reading.at)}
        </span>
      </p>
      {arithmetic !== '' && <p className="number arithmetic">{arithmetic}</p>}
      <p>{reason}</p>
      <p className="quiet">Limits: {source}.</p>
      {teaches && reading.against === null && (
        <label className="check">
          <input
            type="checkbox"
            checked={isGood}
            onChange={(event) => onGood(event.target.checked)}
          />
          From a good board: it teaches this board's known-good
        </label>
      )}
    </div>
  );
}
