import { useEffect, useRef, useState } from 'react';
import type { TraceSource } from './trace-source.ts';

/** Draws again when the source has changed, at most once in `shortestMs` and once a frame. */
export function useTraceVersion(source: TraceSource, shortestMs: number): number {
  const [version, setVersion] = useState(0);
  const shortest = useRef(shortestMs);
  shortest.current = shortestMs;
  useEffect(() => {
    let frame = 0;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let drawnAt = 0;
    const draw = (now: number): void => {
      frame = 0;
      drawnAt = now;
      setVersion(source.version());
    };
    const wake = (): void => {
      timer = undefined;
      frame = requestAnimationFrame(draw);
    };
    setVersion(source.version());
    const stop = source.subscribe(() => {
      if (frame !== 0 || timer !== undefined) return;
      const wait = shortest.current - (performance.now() - drawnAt);
      // Less than a frame to wait is the next frame.
      if (wait > 16) timer = setTimeout(wake, wait - 8);
      else wake();
    });
    return () => {
      stop();
      clearTimeout(timer);
      cancelAnimationFrame(frame);
    };
  }, [source]);
  return version;
}
