import { WakelineError } from '../errors.ts';
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
import { beginProbing, prober } from './prober.ts';
import { regulationOfWord } from './regulation.ts';
import type { RegulationTold, SupplyDialect } from './supply-dialect.ts';
import { SUPPLY_DIALECTS } from './supply-dialects.ts';
import { inChannel, pollPlan } from './supply-poll.ts';

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

const plainValue = (reply: NumericReply | null) => (reply?.kind === 'value' ? reply.value : null);
const decimalsOf = (reply: NumericReply | null) => (reply?.kind === 'value' ? reply.decimals : 3);

/**
 * Finds the dialect of a supply with queries only: no reset, no set-point, no output. Throws
 * `instrument-refused` when nothing that measures volts and amps answers.
 */
export async function probeSupply(session: Session, known?: SupplyDialect): Promise<ProbedSupply> {
  const probeMs = await beginProbing(session);
  const probe = prober(session);
  const candidates = known === undefined ? SUPPLY_DIALECTS : [known];
  for (const candidate of candidates) {
    const volts = await probe(inChannel(candidate.measureVolts, candidate), voltsReply, 1500);
    if (volts === null) continue;
    const amps = await probe(inChannel(candidate.measureAmps, candidate), ampsReply, 1500);
    if (amps === null) continue;
    const ask = async (message: string | null, shape: ReplyShape<NumericReply>) =>
      message === null
        ? null
        : plainValue(await probe(inChannel(message, candidate), shape, probeMs));
    const setV = await ask(candidate.askSetVolts, voltsReply);
    const limitA = await ask(candidate.askSetAmps, ampsReply);
    const output =
      candidate.askOutput === null
        ? null
        : await probe(inChannel(candidate.askOutput, candidate), booleanReply, probeMs);
    const hasOutput = output !== null;
    const dialect: SupplyDialect = {
      ...candidate,
      askOutput: hasOutput ? candidate.askOutput : null,
      outputOn: hasOutput ? candidate.outputOn : null,
      outputOff: hasOutput ? candidate.outputOff : null,
      setVolts: setV === null ? null : candidate.setVolts,
      setAmps: limitA === null ? null : candidate.setAmps,
      askSetVolts: setV === null ? null : candidate.askSetVolts,
      askSetAmps: limitA === null ? null : candidate.askSetAmps,
      errorQueue: session.hasErrorQueue === true,
      regulation: await findRegulation(),
    };
    const full: SupplyDialect = { ...dialect, compound: 'full' };
    const poll = pollPlan(full).turns.at(-1)![0]!;
    const together = await probe(poll.message, poll.shape, 1500);
    return {
      dialect: together === null ? dialect : full,
      maxV: setV === null ? null : await ask(candidate.askMaxVolts, voltsReply),
      maxA: limitA === null ? null : await ask(candidate.askMaxAmps, ampsReply),
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

  async function findRegulation(): Promise<RegulationTold> {
    const mode = await probe(':OUTP:MODE?', wordReply, probeMs);
    if (mode !== null && regulationOfWord(mode) !== null) return { by: 'mode', ask: ':OUTP:MODE?' };
    const ask = ':STAT:QUES:COND?';
    const register = await probe(ask, registerReply, probeMs);
    if (register !== null) return { by: 'register', ask, coding: null };
    return { by: 'inferred' };
  }
}
