import { useEffect, useRef } from 'react';
import { spokenReading } from '../../core/attention/spoken-reading.ts';
import { takenPlace } from '../probing/taken-words.ts';
import { useHands } from '../probing/use-hands.ts';
import { useDeskState } from '../state/use-desk.ts';
import { followedPitch } from './followed-value.ts';
import { sayAloud } from './say-aloud.ts';
import type { ToneName } from './tone-plan.ts';
import { createTonePlayer } from './tone-player.ts';

/** Ears while eyes are in the microscope. Draws nothing; says on the page what it last played. */
export function Sounds() {
  const player = useRef(createTonePlayer());
  const mark = useRef<HTMLSpanElement | null>(null);
  const settings = useHands((state) => state.attention);
  const takes = useHands((state) => state.probe?.takes ?? 0);
  const last = useHands((state) => state.probe?.taken[0] ?? null);
  const refusals = useHands((state) => state.probe?.refusals ?? 0);
  const soak = useHands((state) => state.soak?.verdict ?? null);
  const alarms = useDeskState((state) => state.alarms);
  const stage = useDeskState((state) =>
    state.bench?.run?.kind === 'powered' && state.live?.runId === state.bench.run.id
      ? (state.live.report.stages.at(-1)?.stage ?? null)
      : null,
  );
  const pitch = useDeskState((state) => followedPitch(settings.follow, state.bench));
  const play = (tone: ToneName): void => {
    player.current.play(tone);
    if (mark.current !== null) mark.current.dataset.played = tone;
  };

  useChange(takes, (before) => {
    if (takes <= before || last === null) return;
    if (settings.toneTaken) play(last.replaced ? 'replaced' : 'taken');
    if (settings.speak) sayAloud(spokenReading(last, takenPlace(last)));
  });
  useChange(refusals, (before) => {
    if (refusals > before && settings.toneTaken) play('refused');
  });
  useChange(alarms, (before) => {
    if (alarms.length > 0 && alarms[0] !== before[0] && settings.toneAlarm) play('alarm');
  });
  useChange(stage, () => {
    if (stage !== null && settings.toneStage) play('stage');
  });
  useChange(soak, () => {
    if (soak !== null && settings.toneAlarm) play(soak.passed ? 'taken' : 'alarm');
  });
  useEffect(() => player.current.follow(pitch), [pitch]);
  useEffect(() => () => player.current.close(), []);
  return <span ref={mark} hidden data-testid="last-tone" data-follow={pitch ?? ''} />;
}

/** Runs `act` when the value changed, never for the one that it was found with. */
function useChange<T>(value: T, act: (before: T) => void): void {
  const before = useRef(value);
  useEffect(() => {
    const old = before.current;
    before.current = value;
    if (!Object.is(old, value)) act(old);
  });
}
