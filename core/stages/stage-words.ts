import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, isZero, levelOf } from './board.ts';
import { HIGH_FROM, isBusy, RUNS_FROM } from './climb.ts';
import type { Named } from './named.ts';
import { type Piece, pieceSd } from './piece.ts';
import {
  ampsWords,
  countWords,
  levelWords,
  secondsWords,
  shareWords,
  voltsWords,
} from './quantity-words.ts';
import { joinSpans, type Span } from './span.ts';

/** How sure the tracker is of a name, and why it gave it. */
export interface Verdict {
  readonly confidence: number;
  readonly reason: string;
}

/** Puts a named stretch into words and numbers, with the confidence that they carry. */
export function verdictOf(named: Named, board: Board): Verdict {
  const whole = joinSpans(named.spans, 0, named.spans.length);
  const lasts = secondsWords((named.end - named.start) / TICKS_PER_SECOND);
  const draw = `${levelWords(whole.piece.amps, pieceSd(whole.piece))} for ${lasts}`;
  switch (named.stage) {
    case 'off':
      return offVerdict(named, whole.piece, lasts);
    case 'no-draw':
      return noDrawVerdict(board, whole, draw);
    case 'flat-low':
      return flatLowVerdict(named, board, whole, draw);
    case 'limited':
      return limitedVerdict(named, board, whole.piece, draw);
    case 'cycling':
      return cyclingVerdict(named);
    case 'creeping':
      return creepingVerdict(named, lasts);
    case 'fell-back':
      return fellBackVerdict(named, board, draw);
    case 'stepping':
      return steppingVerdict(named, board, whole.piece, lasts);
    default:
      return settledVerdict(named, board, whole, draw);
  }
}

function offVerdict(named: Named, piece: Piece, lasts: string): Verdict {
  const draw = `${ampsWords(piece.amps)} for ${lasts}`;
  if (named.facts.assumedOff === 'before a start') {
    const reason = `${draw}, then a start from nothing: taken as output off, with no volts column to tell.`;
    return { confidence: 0.7, reason };
  }
  if (named.facts.assumedOff === 'at the end') {
    const reason = `${draw} to the end of the trace: taken as output off, with no volts column to tell it from a draw that fell to nothing.`;
    return { confidence: 0.6, reason };
  }
  if (piece.voltsBins > 0) {
    return { confidence: 0.99, reason: `Output off: ${voltsWords(piece.volts)} and ${draw}.` };
  }
  return { confidence: 0.99, reason: `The supply says that its output is off: ${draw}.` };
}

function noDrawVerdict(board: Board, whole: Span, draw: string): Verdict {
  const kind = board.zeroLearned ? 'learned' : 'usual';
  const near = whole.piece.amps > 0.7 * board.zeroA;
  const blind =
    whole.piece.voltsBins === 0 && whole.piece.toldBins === 0
      ? ' With no volts column, output off would look the same.'
      : '';
  return {
    confidence: blind !== '' ? 0.6 : !board.zeroLearned || near ? 0.75 : 0.95,
    reason: `${draw}, within the ${kind} zero floor of ${ampsWords(board.zeroA)}.${blind}`,
  };
}

function flatLowVerdict(named: Named, board: Board, whole: Span, draw: string): Verdict {
  const bursts = named.facts.bursts ?? 0;
  const short = bursts > 0 ? ` ${countWords(bursts, 'short burst', 'short bursts')} in it.` : '';
  if (board.runA === null) {
    const reason = `${draw}, steady and small: nothing waking. No running level is known.${short}`;
    return { confidence: 0.75, reason };
  }
  const share = shareWords(levelOf(whole, board.runV) / board.runA);
  const reason = `${draw}, ${share} of the running level of ${ampsWords(board.runA)}: nothing waking.${short}`;
  return { confidence: 0.95, reason };
}

function limitedVerdict(named: Named, board: Board, piece: Piece, draw: string): Verdict {
  const told = piece.ccBins > piece.bins / 2;
  const { limitA, setV } = board.settings;
  const parts = [draw];
  if (told) parts.push('the supply says constant current');
  if (limitA !== null) {
    parts.push(`${shareWords(piece.amps / limitA)} of the ${ampsWords(limitA)} limit`);
  } else if (named.facts.ceiling === true) parts.push('a hard ceiling; no limit was told');
  if (piece.voltsBins > 0) {
    const set = setV === null ? '' : ` of ${voltsWords(setV)} set`;
    parts.push(`volts at ${voltsWords(piece.volts)}${set}`);
    if (piece.volts < 1.2) parts.push('near zero as over a short');
  } else parts.push('no volts column to check against');
  const confidence = told ? 0.98 : named.facts.ceiling ? 0.75 : piece.voltsBins > 0 ? 0.94 : 0.65;
  return { confidence, reason: `${parts.join(', ')}.` };
}

function cyclingVerdict(named: Named): Verdict {
  const loop = named.facts.loop!;
  const supply = loop.limited
    ? ' Each time the supply reaches its limit: a limit or leads so weak can make a board restart by themselves.'
    : '';
  return {
    confidence: loop.count >= 3 ? 0.96 : 0.85,
    reason:
      `The draw rose to ${ampsWords(loop.peakA)} and fell back to ${ampsWords(loop.troughA)} ` +
      `${loop.count} times, every ${loop.periodS.toFixed(2)} s +- ${Math.max(0.01, loop.spreadS).toFixed(2)}.${supply}`,
  };
}

function creepingVerdict(named: Named, lasts: string): Verdict {
  const { fromA, toA } = named.facts.creep!;
  const way = toA > fromA ? 'rise' : 'fall';
  return {
    confidence: Math.abs(toA - fromA) > 0.2 * Math.max(fromA, toA) ? 0.92 : 0.8,
    reason: `A slow steady ${way} from ${ampsWords(fromA)} to ${ampsWords(toA)} over ${lasts}, without steps.`,
  };
}

function fellBackVerdict(named: Named, board: Board, draw: string): Verdict {
  const bursts = named.facts.bursts ?? 0;
  const short =
    bursts > 0
      ? ` ${countWords(bursts, 'short burst', 'short bursts')} since, as of a board asleep.`
      : ' It has not climbed again.';
  const held = ampsWords(board.topA);
  const isBlind = named.spans.every((s) => s.piece.voltsBins + s.piece.toldBins === 0);
  if (isBlind && named.spans.every((s) => isZero(s, board))) {
    const reason = `Back at ${draw} after holding ${held}.${short} With no volts column, output off would look the same.`;
    return { confidence: 0.65, reason };
  }
  return { confidence: 0.93, reason: `Back at ${draw} after holding ${held}.${short}` };
}

function steppingVerdict(named: Named, board: Board, piece: Piece, lasts: string): Verdict {
  const from = named.facts.afterA ?? piece.firstAmps;
  const last = named.spans[named.spans.length - 1]!.piece.amps;
  if (named.facts.restart === true) {
    const dip = Math.min(...named.spans.map((s) => s.piece.amps));
    const reason = `A restart: the draw dipped from ${ampsWords(from)} to ${ampsWords(dip)} and climbed again, ${lasts} in all.`;
    return { confidence: 0.8, reason };
  }
  const steps = countWords(named.spans.length, 'step', 'steps');
  return {
    confidence: 0.9,
    reason: `${steps} from ${ampsWords(from)} to ${ampsWords(last)} in ${lasts}${goal(board)}.`,
  };
}

function goal(board: Board): string {
  if (board.runA === null) return '';
  const within = board.settings.wakesWithinS;
  if (within === null) return `; this board runs at ${ampsWords(board.runA)}`;
  const passes = ampsWords(RUNS_FROM * board.runA);
  return `; the known-good runs of this board pass ${passes} within ${secondsWords(within)}`;
}

function settledVerdict(named: Named, board: Board, whole: Span, draw: string): Verdict {
  const from = named.facts.afterA;
  const origin = from === null || from === undefined ? '' : ` after ${ampsWords(from)}`;
  if (board.runA === null) {
    const busy = isBusy(whole, board);
    return {
      confidence: busy ? 0.8 : 0.4,
      reason:
        `${draw}${origin}; the draw ${busy ? 'moves with work' : 'is flat'}. No running level is known: ` +
        'stalled, running and flat high cannot be told apart by level alone.',
    };
  }
  const share = levelOf(whole, board.runV) / board.runA;
  const ofLevel = `${shareWords(share)} of the running level of ${ampsWords(board.runA)}`;
  if (named.stage === 'flat-high') {
    return {
      confidence: share > 1.4 ? 0.92 : 0.75,
      reason: `${draw}${origin}: steady at ${ofLevel}.`,
    };
  }
  if (named.stage === 'running') {
    const near = share > RUNS_FROM && share < HIGH_FROM;
    return { confidence: near ? 0.97 : 0.8, reason: `${draw}${origin}: ${ofLevel}.` };
  }
  const rose = share < 0.72 ? 0.94 : 0.75;
  const passes = board.settings.wakesWithinS === null ? '' : goal(board);
  return { confidence: rose, reason: `${draw}${origin}: ${ofLevel}${passes}.` };
}
