import { useEffect, useId, useRef, useState } from 'react';
import { WakelineError } from '../../core/errors.ts';
import { formatTemperature, parseTemperature } from '../../core/pictures/format-temperature.ts';
import type { PictureMark } from '../../core/pictures/picture.ts';
import { MarkSign } from './mark-sign.tsx';

interface Props {
  readonly mark: PictureMark;
  readonly number: number;
  readonly isChosen: boolean;
  readonly onChoose: () => void;
  readonly onKeep: (mark: PictureMark) => void;
  readonly onRemove: () => void;
}

const written = ({ temperatureC }: PictureMark) =>
  temperatureC === null ? '' : formatTemperature(temperatureC);

/** One mark: its kind, what is there, how hot it was. The chosen one is where typing goes. */
export function MarkLine({ mark, number, isChosen, onChoose, onKeep, onRemove }: Props) {
  const wrongId = useId();
  const [name, setName] = useState(mark.name);
  const [degrees, setDegrees] = useState(() => written(mark));
  const [wrong, setWrong] = useState('');
  const first = useRef<HTMLInputElement | null>(null);
  useEffect(() => {
    if (isChosen) first.current?.focus();
  }, [isChosen]);

  const keep = (): void => {
    try {
      const temperatureC = parseTemperature(degrees);
      setWrong('');
      setDegrees(written({ ...mark, temperatureC }));
      if (name.trim() !== mark.name || temperatureC !== mark.temperatureC) {
        onKeep({ ...mark, name: name.trim(), temperatureC });
      }
    } catch (thrown) {
      if (!(thrown instanceof WakelineError)) throw thrown;
      setWrong(`${thrown.trouble.what}. ${thrown.trouble.todo}`);
    }
  };
  const onEnter = (event: { key: string }): void => {
    if (event.key === 'Enter') keep();
  };
  const other = mark.kind === 'hot-spot' ? 'point' : 'hot-spot';
  return (
    <li className="mark-line" data-chosen={isChosen}>
      <button
        type="button"
        className="plain"
        title={mark.kind === 'hot-spot' ? 'Hot spot' : 'Point'}
        onClick={() => onKeep({ ...mark, kind: other })}
      >
        <MarkSign kind={mark.kind} />
        <span className="heard-only">
          Mark {number} is a{' '}
          {mark.kind === 'hot-spot' ? 'hot spot: make it a point' : 'point: make it a hot spot'}
        </span>
      </button>
      <input
        ref={first}
        className="field-input"
        aria-label={`Mark ${number}, what is there`}
        placeholder={`Mark ${number}`}
        maxLength={200}
        value={name}
        onFocus={onChoose}
        onChange={(event) => setName(event.target.value)}
        onBlur={keep}
        onKeyDown={onEnter}
      />
      <input
        className="field-input"
        aria-label={`Mark ${number}, degrees Celsius`}
        placeholder="°C"
        maxLength={20}
        value={degrees}
        aria-invalid={wrong !== ''}
        aria-describedby={wrongId}
        onFocus={onChoose}
        onChange={(event) => setDegrees(event.target.value)}
        onBlur={keep}
        onKeyDown={onEnter}
      />
      <button type="button" className="plain" onClick={onRemove}>
        Remove<span className="heard-only"> mark {number}</span>
      </button>
      <p id={wrongId} role="alert" className={wrong === '' ? 'heard-only' : 'form-wrong'}>
        {wrong}
      </p>
    </li>
  );
}
