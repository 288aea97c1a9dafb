import { useEffect, useState } from 'react';
import type { TraceSource } from './trace-source.ts';

/** Fewest milliseconds between two drawings: samples come faster than eyes need them. */
const SHORTEST_MS = 40;

/** Draws again when the source has changed, at most 25 times a second and once a frame. */
export function useTraceVersion(source: TraceSource | null): number {
  const [version, setVersion] = useState(0);
  useEffect(() => {
    if (source === null) return;
    let frame = 0;
    let drawnAt = 0;
    const draw = (now: number) => {
      if (now - drawnAt < SHORTEST_MS) {
        frame = requestAnimationFrame(draw);
        return;
      }
      frame = 0;
      drawnAt = now;
      setVersion(source.version());
    };
    setVersion(source.version());
    const stop = source.subscribe(() => {
      if (frame === 0) frame = requestAnimationFrame(draw);
    });
    return () => {
      stop();
      cancelAnimationFrame(frame);
    };
  }, [source]);
  return version;
}
