import { TICKS_PER_SECOND } from '../trace/sample.ts';
import type { Ammeter } from './board.ts';
import { findCreeps } from './creep.ts';
import { mergeSame, type Named } from './named.ts';
import { joinSpans } from './span.ts';

const STEADY = ['flat-low', 'stalled', 'running', 'flat-high', 'no-draw', 'fell-back'];
/** Seconds of a steady stage beside a slope that are worth a stage of their own. */
const LEAST_REST_S = 2;

/** Cuts the slow slopes out of steady stages and names them. */
export function splitCreeps(named: readonly Named[], ammeter: Ammeter): Named[] {
  return mergeSame(named.flatMap((n) => (STEADY.includes(n.stage) ? splitOne(n, ammeter) : [n])));
}

function splitOne(named: Named, ammeter: Ammeter): Named[] {
  const { piece } = joinSpans(named.spans, 0, named.spans.length);
  const creeps = findCreeps(piece.blocks, named.end, ammeter);
  if (creeps.length === 0) return [named];
  const out: Named[] = [];
  let at = named.start;
  for (const creep of creeps) {
    const rests = creep.start - at > LEAST_REST_S * TICKS_PER_SECOND;
    if (rests) out.push(cut(named, at, creep.start));
    const start = rests ? creep.start : at;
    const end = named.end - creep.end > LEAST_REST_S * TICKS_PER_SECOND ? creep.end : named.end;
    out.push({
      ...cut(named, start, end),
      stage: 'creeping',
      facts: { ...named.facts, creep: { fromA: creep.fromA, toA: creep.toA } },
    });
    at = end;
  }
  if (named.end > at) out.push(cut(named, at, named.end));
  return out;
}

/** The part of a stage from `start` to `end`, with only the spans and blocks that lie in it. */
function cut(named: Named, start: number, end: number): Named {
  const spans = named.spans
    .filter((s) => s.end > start && s.start < end)
    .map((s) => {
      if (s.start >= start && s.end <= end) return s;
      const inside = s.piece.blocks.filter((b) => b.tick >= start && b.tick < end);
      if (inside.length === 0)
        return { ...s, start: Math.max(start, s.start), end: Math.min(end, s.end) };
      const bins = inside.reduce((n, b) => n + b.bins, 0);
      const amps = inside.reduce((sum, b) => sum + b.amps * b.bins, 0) / bins;
      const squares = inside.reduce((sum, b) => sum + b.bins * (b.amps - amps) ** 2, 0);
      const share = bins / s.piece.bins;
      return {
        start: Math.max(start, s.start),
        end: Math.min(end, s.end),
        piece: {
          ...s.piece,
          tick: Math.max(start, s.start),
          bins,
          amps,
          squares: squares + Math.max(0, bins - 1) * s.piece.sigma ** 2,
          samples: Math.max(1, Math.round(s.piece.samples * share)),
          ampsSum: amps * Math.max(1, Math.round(s.piece.samples * share)),
          firstAmps: inside[0]!.amps,
          lastAmps: inside[inside.length - 1]!.amps,
          blocks: inside,
        },
      };
    });
  return { ...named, start, end, spans: spans.length > 0 ? spans : named.spans };
}
