import type { ReactNode } from 'react';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { clockWords } from '../trace/time-ticks.ts';
import { otherSpeed, SPEEDS } from './play-head.ts';
import type { usePlayHead } from './use-play-head.ts';

interface Props {
  readonly player: ReturnType<typeof usePlayHead>;
  readonly lastTick: number;
  readonly children?: ReactNode;
}

/** Play, speed and the slider that scrubs. */
export function ReplayBar({ player, lastTick, children }: Props) {
  useKey('play', player.toggle);
  useKey('faster', () => player.setSpeed(otherSpeed(player.speed, 1)));
  useKey('slower', () => player.setSpeed(otherSpeed(player.speed, -1)));
  return (
    <section className="replay-bar" aria-label="Replay">
      <button type="button" className="plain strong play" onClick={player.toggle}>
        {player.isPlaying ? 'Pause' : 'Play'} <KeyCap>P</KeyCap>
      </button>
      <fieldset className="segments">
        <legend className="heard-only">Speed</legend>
        {SPEEDS.map((speed) => (
          <button
            key={speed}
            type="button"
            className="segment"
            aria-pressed={player.speed === speed}
            onClick={() => player.setSpeed(speed)}
          >
            {speed}×
          </button>
        ))}
      </fieldset>
      <input
        type="range"
        className="scrub"
        aria-label="Time in the run"
        aria-valuetext={clockWords(player.head, 1)}
        min={0}
        max={lastTick}
        step={TICKS_PER_SECOND / 10}
        value={player.head}
        onChange={(event) => player.put(Number(event.target.value))}
      />
      {children}
    </section>
  );
}
