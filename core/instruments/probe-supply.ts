import { WakelineError } from '../errors.ts';
import { appliedReply } from '../scpi/response-applied.ts';
import type { NumericReply } from '../scpi/response-number.ts';
import {
  ampsReply,
  booleanReply,
  type ReplyShape,
  registerReply,
  voltsReply,
  wordReply,
} from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';
import { functionReply } from './meter-shape.ts';
import { beginProbing, likelyMs, type Probe, prober } from './prober.ts';
import { regulationOfWord } from './regulation.ts';
import { inChannel, type RegulationTold, type SupplyDialect } from './supply-dialect.ts';
import { MODE_QUERIES, REGISTER_CODINGS, SUPPLY_DIALECTS } from './supply-dialects.ts';
import { pollPlan } from './supply-poll.ts';

/** What probing found of a supply. */
export interface ProbedSupply {
  readonly dialect: SupplyDialect;
  readonly maxV: number | null;
  readonly maxA: number | null;
  readonly setV: number | null;
  readonly limitA: number | null;
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
}

/** A supply's first measurement may take this long. */
const FIRST_READING_MS = 1500;
/** Without its set-points and output a supply is of little use: they are waited for longer. */
const NEEDED_MS = 800;

const plainValue = (reply: NumericReply | null) => (reply?.kind === 'value' ? reply.value : null);
const decimalsOf = (reply: NumericReply | null) => (reply?.kind === 'value' ? reply.decimals : 3);

/**
 * Finds the dialect of a supply with queries only: no reset, no set-point, no output, no selected
 * channel is changed. A dialect `known` for this identity is tried first. Throws
 * `instrument-refused` when nothing that measures volts and amps answers.
 */
export async function probeSupply(session: Session, known?: SupplyDialect): Promise<ProbedSupply> {
  if (known !== undefined) session.pauseMs = Math.max(session.pauseMs, known.pauseMs);
  const probeMs = await beginProbing(session, known?.errorQueue);
  const probe = prober(session);
  if (known === undefined) await refuseMeter(session, probe, probeMs);
  for (const candidate of known === undefined ? SUPPLY_DIALECTS : [known, ...SUPPLY_DIALECTS]) {
    const neededMs = Math.max(probeMs, NEEDED_MS);
    const ask = <T>(message: string | null, shape: ReplyShape<T>, timeoutMs = neededMs) =>
      probe(message === null ? null : inChannel(message, candidate), shape, timeoutMs);
    const startMs = session.clock.nowMs();
    const volts = await ask(candidate.measureVolts, voltsReply, FIRST_READING_MS);
    if (volts === null) continue;
    const amps = await ask(candidate.measureAmps, ampsReply, FIRST_READING_MS);
    if (amps === null) continue;
    const pairMs = likelyMs(session.clock.nowMs() - startMs, 2 * FIRST_READING_MS);
    const ownV = plainValue(await ask(candidate.askSetVolts, voltsReply));
    const ownA = plainValue(await ask(candidate.askSetAmps, ampsReply));
    const hasOwn = ownV !== null && ownA !== null;
    const applied = hasOwn ? null : await ask(candidate.askApplied, appliedReply);
    const setV = ownV ?? applied?.setV ?? null;
    const limitA = ownA ?? applied?.limitA ?? null;
    const found = {
      ...candidate,
      setVolts: setV === null ? null : candidate.setVolts,
      setAmps: limitA === null ? null : candidate.setAmps,
      askSetVolts: ownV === null ? null : candidate.askSetVolts,
      askSetAmps: ownA === null ? null : candidate.askSetAmps,
      askApplied: applied === null ? null : candidate.askApplied,
    };
    const dialect =
      candidate === known ? known : await complete(found, session, probe, { probeMs, pairMs });
    const maxV = setV === null ? null : plainValue(await ask(candidate.askMaxVolts, voltsReply));
    const maxA = limitA === null ? null : plainValue(await ask(candidate.askMaxAmps, ampsReply));
    return {
      dialect,
      maxV: maxV ?? applied?.maxV ?? null,
      maxA: maxA ?? applied?.maxA ?? null,
      setV,
      limitA,
      voltsDecimals: decimalsOf(volts),
      ampsDecimals: decimalsOf(amps),
    };
  }
  throw new WakelineError({
    code: 'instrument-refused',
    what: 'It answers, but to no way of asking volts and amps that is known here',
    where: session.name,
    todo: 'Check that this is the supply; else write its dialect down as a file (DEVELOPERS.md, adding a dialect).',
  });
}

/** `MEAS:VOLT?` puts a multimeter into another function: one is never asked it. */
async function refuseMeter(session: Session, probe: Probe, probeMs: number): Promise<void> {
  if ((await probe('OUTP?', booleanReply, Math.max(probeMs, NEEDED_MS))) !== null) return;
  for (const ask of ['FUNC?', 'CONF?']) {
    const told = await probe(ask, functionReply, probeMs);
    if (told === null) continue;
    throw new WakelineError({
      code: 'instrument-refused',
      what: `This is a multimeter (it says that it is set to ${told.word}), not a supply`,
      where: session.name,
      todo: 'Connect it as the meter.',
    });
  }
}

/** Fills in what else the instrument has and what it has not. */
async function complete(
  candidate: SupplyDialect,
  session: Session,
  probe: Probe,
  { probeMs, pairMs }: { probeMs: number; pairMs: number },
): Promise<SupplyDialect> {
  const inFull = (message: string) => inChannel(message, candidate);
  const output =
    candidate.askOutput === null
      ? null
      : await probe(inFull(candidate.askOutput), booleanReply, Math.max(probeMs, NEEDED_MS));
  // A dialect that cannot ask its output is believed to have one when it takes set-points.
  const hasOutput =
    output !== null || (candidate.askOutput === null && candidate.setVolts !== null);
  const selected = await probe(candidate.askChannel, registerReply, probeMs);
  const isSelect = selected !== null && selected >= 1 && selected <= 64;
  const dialect: SupplyDialect = {
    ...candidate,
    channel: isSelect ? { form: 'select', number: selected } : candidate.channel,
    selectChannel: isSelect ? candidate.selectChannel : null,
    askChannel: isSelect ? candidate.askChannel : null,
    askOutput: hasOutput ? candidate.askOutput : null,
    outputOn: hasOutput ? candidate.outputOn : null,
    outputOff: hasOutput ? candidate.outputOff : null,
    errorQueue: session.hasErrorQueue === true,
    regulation: hasOutput ? await findRegulation(candidate, probe, probeMs) : { by: 'inferred' },
    pauseMs: session.pauseMs,
  };
  return { ...dialect, compound: await findCompound(dialect, probe, pairMs) };
}

async function findRegulation(
  dialect: SupplyDialect,
  probe: Probe,
  probeMs: number,
): Promise<RegulationTold> {
  if (!dialect.errorQueue) return { by: 'inferred' };
  for (const ask of MODE_QUERIES) {
    const word = await probe(ask, wordReply, probeMs);
    if (word !== null && regulationOfWord(word) !== null) return { by: 'mode', ask };
  }
  const asks: string[] = [];
  for (const { ask } of REGISTER_CODINGS) {
    const register = await probe(inChannel(ask, dialect), registerReply, probeMs);
    if (register !== null) asks.push(ask);
  }
  return asks.length === 0 ? { by: 'inferred' } : { by: 'learning', asks };
}

/**
 * Finds how several queries go in one message, and never by a way that could answer another
 * quantity without saying so: full headers first; a relative one only where it answers what the
 * same query alone answers, and the set limit is something else.
 */
async function findCompound(
  dialect: SupplyDialect,
  probe: Probe,
  pairMs: number,
): Promise<SupplyDialect['compound']> {
  if (!dialect.errorQueue) return 'separate';
  for (const compound of ['full', 'bare'] as const) {
    const [, [longest] = []] = pollPlan({ ...dialect, compound });
    if (longest !== undefined && (await probe(longest.message, longest.shape, pairMs))) {
      return compound;
    }
  }
  const [[pair] = []] = pollPlan({ ...dialect, compound: 'relative' });
  if (pair === undefined) return 'separate';
  const together = await probe(pair.message, pair.shape, pairMs);
  const alone = plainValue(
    await probe(inChannel(dialect.measureAmps, dialect), ampsReply, FIRST_READING_MS),
  );
  const limitA =
    dialect.askSetAmps === null
      ? null
      : plainValue(await probe(inChannel(dialect.askSetAmps, dialect), ampsReply, NEEDED_MS));
  const second = plainValue((together?.[1] as NumericReply | undefined) ?? null);
  if (second === null || alone === null || limitA === null) return 'separate';
  const isMeasured = Math.abs(second - alone) < Math.abs(second - limitA) / 4;
  return isMeasured ? 'relative' : 'separate';
}
