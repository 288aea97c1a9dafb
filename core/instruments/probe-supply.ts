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
import { FUNCTION_QUERIES } from './meter-dialects.ts';
import { functionReply } from './meter-shape.ts';
import { beginProbing, likelyMs, type Probe, prober, QUICK_MS } from './prober.ts';
import { regulationOfWord } from './regulation.ts';
import { inChannel, type RegulationTold, type SupplyDialect } from './supply-dialect.ts';
import {
  MEASURE_BOTH,
  MODE_QUERIES,
  OUTPUT_FORMS,
  REGISTER_CODINGS,
  SELECT_FORMS,
  SETPOINT_FORMS,
  SUPPLY_DIALECTS,
} from './supply-dialects.ts';
import { bothReply, channelReply, pollPlan } from './supply-poll.ts';

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
/** Ways of asking that are tried only because the usual one was not answered. */
const OTHER_MS = 300;

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
  const probe = prober(session, Math.max(probeMs, QUICK_MS));
  if (known === undefined) await refuseMeter(session, probe, probeMs);
  /** One that only measures so far: perhaps an inline meter, perhaps spoken to in the wrong way. */
  let meterOnly: ProbedSupply | null = null;
  for (const candidate of known === undefined ? SUPPLY_DIALECTS : [known, ...SUPPLY_DIALECTS]) {
    const neededMs = Math.max(probeMs, NEEDED_MS);
    const ask = <T>(message: string | null, shape: ReplyShape<T>, timeoutMs = neededMs) =>
      probe(message === null ? null : inChannel(message, candidate), shape, timeoutMs);
    const startMs = session.clock.nowMs();
    const measured = await measure(candidate, ask);
    if (measured === null) continue;
    const [volts, amps] = measured;
    const pairMs = likelyMs(session.clock.nowMs() - startMs, 2 * FIRST_READING_MS);
    const { setpoints, setV, limitA, applied } = await findSetpoints(candidate, ask, {
      isKnown: candidate === known,
      otherMs: Math.max(probeMs, OTHER_MS),
    });
    const dialect =
      candidate === known
        ? known
        : await complete({ ...candidate, ...setpoints }, session, probe, {
            probeMs,
            pairMs,
            measured,
          });
    const maxV = setV === null ? null : plainValue(await ask(dialect.askMaxVolts, voltsReply));
    const maxA = limitA === null ? null : plainValue(await ask(dialect.askMaxAmps, ampsReply));
    const found: ProbedSupply = {
      dialect,
      maxV: maxV ?? applied?.maxV ?? null,
      maxA: maxA ?? applied?.maxA ?? null,
      setV,
      limitA,
      voltsDecimals: decimalsOf(volts),
      ampsDecimals: decimalsOf(amps),
    };
    if (candidate === known || setV !== null || dialect.outputOff !== null) return found;
    meterOnly ??= found;
  }
  if (meterOnly !== null) return meterOnly;
  throw new WakelineError({
    code: 'instrument-refused',
    what: 'It answers, but to no way of asking volts and amps that is known here',
    where: session.name,
    todo: 'Check that this is the supply; else write its dialect down as a file (DEVELOPERS.md, adding a dialect).',
  });
}

type Ask = <T>(
  message: string | null,
  shape: ReplyShape<T>,
  timeoutMs?: number,
) => Promise<T | null>;

/** Volts and amps by the candidate's way of measuring; null when it is not answered. */
async function measure(
  candidate: SupplyDialect,
  ask: Ask,
): Promise<readonly [NumericReply, NumericReply] | null> {
  if (candidate.measureBoth !== null) {
    return ask(candidate.measureBoth, bothReply, FIRST_READING_MS);
  }
  const volts = await ask(candidate.measureVolts, voltsReply, FIRST_READING_MS);
  if (volts === null) return null;
  const amps = await ask(candidate.measureAmps, ampsReply, FIRST_READING_MS);
  return amps === null ? null : [volts, amps];
}

type SetpointAsks = Pick<
  SupplyDialect,
  'setVolts' | 'setAmps' | 'askSetVolts' | 'askSetAmps' | 'askMaxVolts' | 'askMaxAmps'
>;

/** Finds how set-points are asked and set: the candidate's way, both at once, or another way. */
async function findSetpoints(
  candidate: SupplyDialect,
  ask: Ask,
  { isKnown, otherMs }: { isKnown: boolean; otherMs: number },
) {
  const asked = async (form: SetpointAsks, timeoutMs?: number) => ({
    form,
    ownV: plainValue(await ask(form.askSetVolts, voltsReply, timeoutMs)),
    ownA: plainValue(await ask(form.askSetAmps, ampsReply, timeoutMs)),
  });
  let best = await asked(candidate);
  const isNone = () => best.ownV === null && best.ownA === null;
  const hasOwn = best.ownV !== null && best.ownA !== null;
  const applied = hasOwn ? null : await ask(candidate.askApplied, appliedReply);
  if (!isKnown && isNone() && applied === null) {
    for (const form of candidate.errorQueue ? SETPOINT_FORMS : []) {
      if (!isNone()) break;
      best = await asked(form, otherMs);
    }
  }
  const { form, ownV, ownA } = best;
  const setV = ownV ?? applied?.setV ?? null;
  const limitA = ownA ?? applied?.limitA ?? null;
  const setpoints = {
    setVolts: setV === null ? null : form.setVolts,
    setAmps: limitA === null ? null : form.setAmps,
    askSetVolts: ownV === null ? null : form.askSetVolts,
    askSetAmps: ownA === null ? null : form.askSetAmps,
    askMaxVolts: setV === null ? null : form.askMaxVolts,
    askMaxAmps: limitA === null ? null : form.askMaxAmps,
    askApplied: applied === null ? null : candidate.askApplied,
  };
  return { setpoints, setV, limitA, applied };
}

/** `MEAS:VOLT?` puts a multimeter into another function: one is never asked it. */
async function refuseMeter(session: Session, probe: Probe, probeMs: number): Promise<void> {
  if ((await probe('OUTP?', booleanReply, Math.max(probeMs, NEEDED_MS))) !== null) return;
  for (const ask of FUNCTION_QUERIES) {
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
  { probeMs, pairMs, measured }: { probeMs: number; pairMs: number; measured: Pair },
): Promise<SupplyDialect> {
  const output = await findOutput(candidate, probe, probeMs);
  const selected = await findChannel(candidate, probe, probeMs);
  const dialect: SupplyDialect = {
    ...candidate,
    ...output,
    channel: selected === null ? candidate.channel : { form: 'select', number: selected.number },
    selectChannel: selected?.form.selectChannel ?? null,
    askChannel: selected?.form.askChannel ?? null,
    errorQueue: session.hasErrorQueue === true,
    regulation:
      output.outputOff === null
        ? { by: 'inferred' }
        : await findRegulation(candidate, probe, probeMs),
    pauseMs: session.pauseMs,
  };
  if (dialect.measureBoth !== null) return { ...dialect, compound: 'separate' };
  const compound = await findCompound(dialect, probe, pairMs);
  const measureBoth =
    compound === 'separate' ? await findBoth(dialect, probe, { probeMs, measured }) : null;
  return { ...dialect, compound, measureBoth };
}

type Pair = readonly [NumericReply, NumericReply];

/** How the output is switched and asked; all null when there is none. */
async function findOutput(
  candidate: SupplyDialect,
  probe: Probe,
  probeMs: number,
): Promise<Pick<SupplyDialect, 'outputOn' | 'outputOff' | 'askOutput'>> {
  const { outputOn, outputOff, askOutput } = candidate;
  const none = { outputOn: null, outputOff: null, askOutput: null };
  // A dialect that cannot ask its output is believed to have one when it takes set-points.
  if (askOutput === null)
    return candidate.setVolts === null ? none : { outputOn, outputOff, askOutput };
  const asked = (ask: string, timeoutMs: number) =>
    probe(inChannel(ask, candidate), booleanReply, timeoutMs);
  if ((await asked(askOutput, Math.max(probeMs, NEEDED_MS))) !== null) {
    return { outputOn, outputOff, askOutput };
  }
  for (const form of OUTPUT_FORMS) {
    if (form.askOutput === null || form.askOutput === askOutput) continue;
    if ((await asked(form.askOutput, Math.max(probeMs, OTHER_MS))) !== null) return form;
  }
  return none;
}

/** The channel that is selected, on supplies with one selected at a time. */
async function findChannel(candidate: SupplyDialect, probe: Probe, probeMs: number) {
  if (candidate.askChannel === null) return null;
  for (const form of SELECT_FORMS) {
    const number = await probe(form.askChannel, channelReply, probeMs);
    if (number !== null && number >= 1 && number <= 64) return { form, number };
  }
  return null;
}

/** Whether two readings of one thing, taken one after the other, can be the same. */
function isLike(a: NumericReply, b: NumericReply): boolean {
  if (a.kind !== 'value' || b.kind !== 'value') return a.kind === b.kind;
  return Math.abs(a.value - b.value) <= 0.02 + 0.2 * Math.max(Math.abs(a.value), Math.abs(b.value));
}

/** One answer with volts and amps, where queries cannot be joined: readings that belong together. */
async function findBoth(
  dialect: SupplyDialect,
  probe: Probe,
  { probeMs, measured: [volts, amps] }: { probeMs: number; measured: Pair },
): Promise<string | null> {
  for (const ask of dialect.errorQueue ? MEASURE_BOTH : []) {
    const both = await probe(inChannel(ask, dialect), bothReply, Math.max(probeMs, OTHER_MS));
    if (both !== null && isLike(both[0], volts) && isLike(both[1], amps)) return ask;
  }
  return null;
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
  const measureAmps = dialect.measureAmps === null ? null : inChannel(dialect.measureAmps, dialect);
  const alone = plainValue(await probe(measureAmps, ampsReply, FIRST_READING_MS));
  const limitA =
    dialect.askSetAmps === null
      ? null
      : plainValue(await probe(inChannel(dialect.askSetAmps, dialect), ampsReply, NEEDED_MS));
  const second = plainValue((together?.[1] as NumericReply | undefined) ?? null);
  if (second === null || alone === null || limitA === null) return 'separate';
  const isMeasured = Math.abs(second - alone) < Math.abs(second - limitA) / 4;
  return isMeasured ? 'relative' : 'separate';
}
