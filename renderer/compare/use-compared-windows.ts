import { useEffect, useRef, useState } from 'react';
import type { TraceWindow } from '../../core/trace/sample.ts';
import { useDesk } from '../state/use-desk.ts';
import type { TickRange } from '../trace/trace-view.ts';
import type { CommonTime } from './common-time.ts';

/** A window of each run, by run; a run that the ledger has not answered for yet is missing. */
export type ComparedWindows = ReadonlyMap<string, TraceWindow>;

/**
 * Reads the stretch on screen of every run, reduced in the ledger: runs of any length cost the
 * same. One request a run at a time; while it is on its way only the newest stretch is kept.
 */
export function useComparedWindows(
  time: CommonTime,
  range: TickRange,
  columns: number,
): ComparedWindows {
  const { bridge } = useDesk();
  const [windows, setWindows] = useState<ComparedWindows>(new Map());
  const wanted = useRef({ time, range, columns });
  wanted.current = { time, range, columns };
  const isReading = useRef(false);
  const { fromTick, toTick } = range;
  // biome-ignore lint/correctness/useExhaustiveDependencies: read through the ref, newest first
  useEffect(() => {
    let isHere = true;
    const read = async (): Promise<void> => {
      isReading.current = true;
      const asked = wanted.current;
      const answers = await Promise.all(
        asked.time.runs.map(async ({ id, shiftTicks }) => {
          const from = Math.max(0, Math.floor(asked.range.fromTick - shiftTicks));
          const to = Math.max(from + 1, Math.ceil(asked.range.toTick - shiftTicks));
          const width = Math.max(1, Math.min(1600, asked.columns));
          const answer = await bridge.readWindow({
            id,
            fromTick: from,
            toTick: to,
            columns: width,
          });
          return [id, answer.ok ? answer.value : null] as const;
        }),
      );
      isReading.current = false;
      if (!isHere) return;
      setWindows(new Map(answers.flatMap(([id, one]) => (one === null ? [] : [[id, one]]))));
      if (wanted.current.range !== asked.range || wanted.current.time !== asked.time) await read();
    };
    if (!isReading.current && columns > 1) void read();
    return () => {
      isHere = false;
    };
  }, [time, fromTick, toTick, columns, bridge]);
  return windows;
}
