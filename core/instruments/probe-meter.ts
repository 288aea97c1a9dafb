import { WakelineError } from '../errors.ts';
import type { NumericReply } from '../scpi/response-number.ts';
import { compoundReply } from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';
import type { MeterDialect } from './meter-dialect.ts';
import { FUNCTION_QUERIES, METER_DIALECTS } from './meter-dialects.ts';
import { functionReply, readingReply, type ToldFunction } from './meter-shape.ts';
import { beginProbing, likelyMs, type Probe, prober } from './prober.ts';

/** The answer to reading and function asked in one message. */
export const readingWithFunction = compoundReply<readonly [NumericReply, ToldFunction]>([
  readingReply,
  functionReply,
]);

/** Reading and function in one message. */
export const joined = (read: string, askFunction: string) => `${read};:${askFunction}`;

/** A reading that takes longer is asked about in the error queue first: perhaps it is not known. */
const QUICK_READING_MS = 800;
/** A meter takes up to this long for its first reading. */
const FIRST_READING_MS = 6000;

/**
 * Finds the dialect of a meter with queries only: its function stays what it is. A dialect `known`
 * for this identity is tried first. Throws
 * `instrument-refused` when nothing that reads answers.
 */
export async function probeMeter(session: Session, known?: MeterDialect): Promise<MeterDialect> {
  if (known !== undefined) session.pauseMs = Math.max(session.pauseMs, known.pauseMs);
  const probeMs = await beginProbing(session, known?.errorQueue);
  const probe = prober(session, Math.max(probeMs, QUICK_READING_MS));
  for (const candidate of known === undefined ? METER_DIALECTS : [known, ...METER_DIALECTS]) {
    const startMs = session.clock.nowMs();
    const reading = await probe(candidate.read, readingReply, FIRST_READING_MS);
    const againMs = likelyMs(session.clock.nowMs() - startMs, FIRST_READING_MS);
    if (reading === null) continue;
    if (candidate === known) return known;
    const askFunction = await findFunctionQuery(candidate, probe, probeMs);
    const together =
      askFunction === null
        ? null
        : await probe(joined(candidate.read, askFunction), readingWithFunction, againMs);
    return {
      ...candidate,
      askFunction,
      compound: together === null ? 'separate' : 'full',
      errorQueue: session.hasErrorQueue === true,
      pauseMs: session.pauseMs,
    };
  }
  throw new WakelineError({
    code: 'instrument-refused',
    what: 'It answers, but to no way of asking for a reading that is known here',
    where: session.name,
    todo: 'Check that this is the meter; else write its dialect down as a file (DEVELOPERS.md, adding a dialect).',
  });
}

async function findFunctionQuery(
  { askFunction }: MeterDialect,
  probe: Probe,
  probeMs: number,
): Promise<string | null> {
  for (const ask of new Set([askFunction, ...FUNCTION_QUERIES])) {
    if ((await probe(ask, functionReply, probeMs)) !== null) return ask;
  }
  return null;
}
