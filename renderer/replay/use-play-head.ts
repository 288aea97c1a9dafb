import { useEffect, useRef, useState } from 'react';
import { advance, type Speed } from './play-head.ts';

/** A head that plays along `lastTick` ticks at a speed, and can be put anywhere. */
export function usePlayHead(lastTick: number, onMove: (tick: number) => void) {
  const [head, setHead] = useState(0);
  const [speed, setSpeed] = useState<Speed>(1);
  const [isPlaying, setPlaying] = useState(false);
  const at = useRef(0);
  const tell = useRef(onMove);
  tell.current = onMove;

  const put = (tick: number): void => {
    at.current = Math.min(lastTick, Math.max(0, tick));
    setHead(at.current);
    tell.current(at.current);
  };
  const putLatest = useRef(put);
  putLatest.current = put;

  useEffect(() => {
    if (!isPlaying) return;
    let before = performance.now();
    let frame = requestAnimationFrame(function step(now) {
      putLatest.current(advance(at.current, speed, now - before, lastTick));
      before = now;
      if (at.current >= lastTick) setPlaying(false);
      else frame = requestAnimationFrame(step);
    });
    return () => cancelAnimationFrame(frame);
  }, [isPlaying, speed, lastTick]);

  const toggle = (): void => {
    if (!isPlaying && at.current >= lastTick) put(0);
    setPlaying(!isPlaying);
  };
  return { head, speed, isPlaying, put, setSpeed, toggle };
}
