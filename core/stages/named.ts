import type { Burst } from './bursts.ts';
import type { Span } from './span.ts';
import type { StageId } from './stage.ts';

/** A stretch with its name and what the name rests on; words come last, from these facts. */
export interface Named {
  readonly stage: StageId;
  readonly start: number;
  readonly end: number;
  readonly spans: readonly Span[];
  readonly facts: Facts;
}

export interface Facts {
  /** Count and last rises of a loop. */
  readonly loop?: LoopFacts;
  /** A slow slope. */
  readonly creep?: { readonly fromA: number; readonly toA: number };
  /** A dip to low draw that the board climbed out of at once. */
  readonly restart?: boolean;
  /** Bursts out of low draw that do not count as climbs. */
  readonly bursts?: number;
  /** A hard ceiling of current while the volts collapse, with no limit told. */
  readonly ceiling?: boolean;
  /** Nothing tells output off from no draw but the start that follows, or the end of the trace. */
  readonly assumedOff?: 'before a start' | 'at the end';
  /** Level before this stretch in amps; null at the start of a run. */
  readonly afterA?: number | null;
}

export interface LoopFacts {
  readonly count: number;
  readonly periodS: number;
  readonly spreadS: number;
  readonly peakA: number;
  readonly troughA: number;
  /** Usual seconds between a fall and the next rise. */
  readonly troughS: number;
  readonly limited: boolean;
  readonly last: readonly Burst[];
}

/** Neighbours of the same name as one. */
export function mergeSame(named: readonly Named[]): Named[] {
  const out: Named[] = [];
  // The spans of the newest entry of `out`, which is built up in place.
  let spans: Span[] = [];
  for (const n of named) {
    const last = out[out.length - 1];
    if (last === undefined || last.stage !== n.stage) {
      spans = [...n.spans];
      out.push({ ...n, spans });
      continue;
    }
    for (const span of n.spans) spans.push(span);
    const facts = mergeFacts(last.facts, n.facts);
    out[out.length - 1] = { stage: n.stage, start: last.start, end: n.end, spans, facts };
  }
  return out;
}

function mergeFacts(a: Facts, b: Facts): Facts {
  const bursts = (a.bursts ?? 0) + (b.bursts ?? 0);
  return {
    ...b,
    ...a,
    ...(a.loop !== undefined && b.loop !== undefined ? { loop: b.loop } : {}),
    ...(a.creep !== undefined && b.creep !== undefined
      ? { creep: { fromA: a.creep.fromA, toA: b.creep.toA } }
      : {}),
    ...(bursts > 0 ? { bursts } : {}),
  };
}
