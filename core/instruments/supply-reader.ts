import { WakelineError } from '../errors.ts';
import type { NumericReply } from '../scpi/response-number.ts';
import { registerReply } from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';
import type { Regulation } from '../trace/sample.ts';
import {
  clearRegulation,
  inferRegulation,
  type RegulationFacts,
  regulationOfRegister,
  regulationOfWord,
} from './regulation.ts';
import { regulationLearner } from './regulation-learner.ts';
import { inChannel, type SupplyDialect } from './supply-dialect.ts';
import { type PollPart, pollPlan } from './supply-poll.ts';
import type { Setpoints, SupplyReading } from './supply-reading.ts';

/** Polls a supply in its dialect. */
export interface SupplyReader {
  /** Measures once. Throws as `Session.query`, and `instrument-refused` on another channel. */
  read(set: Setpoints): Promise<SupplyReading>;
  /** Digits after the point that readings have had so far. */
  readonly decimals: { volts: number; amps: number };
}

/** While the coding of a register is being learned, it is looked at this often at most. */
const LEARN_EVERY_MS = 1000;
/** How long a reading is waited for: by the supply's own pace, so that a silent one is noticed soon. */
const LONGEST_WAIT_MS = 2500;
const LEAST_WAIT_MS = 800;
const WAIT_TIMES = 5;

export function supplyReader(
  session: Session,
  found: SupplyDialect,
  decimals: { volts: number; amps: number },
  onLearned: (dialect: SupplyDialect) => void,
): SupplyReader {
  let dialect = found;
  let plan = pollPlan(dialect);
  let turn = 0;
  let slowestMs = LONGEST_WAIT_MS / WAIT_TIMES;
  let learnedMs = Number.NEGATIVE_INFINITY;
  const learner =
    found.regulation.by === 'learning' ? regulationLearner(found.regulation.asks) : null;

  function plainValue(reply: NumericReply | undefined, of: 'volts' | 'amps'): number | null {
    if (reply?.kind !== 'value') return null;
    if (reply.decimals > decimals[of]) decimals[of] = reply.decimals;
    return reply.value;
  }

  function told(parts: Partial<Record<PollPart, unknown>>, outputOn: boolean | null) {
    if (outputOn === false) return 'off';
    if (parts.mode !== undefined) return regulationOfWord(parts.mode as string);
    if (parts.register === undefined || dialect.regulation.by !== 'register') return null;
    return regulationOfRegister(parts.register as number, dialect.regulation.coding, outputOn);
  }

  /** Asks the registers in a case that leaves no doubt, until only one coding fits. */
  async function learn(facts: RegulationFacts): Promise<void> {
    if (learner === null || dialect.regulation.by !== 'learning') return;
    const clear = clearRegulation(facts);
    if (clear === null || session.clock.nowMs() - learnedMs < LEARN_EVERY_MS) return;
    learnedMs = session.clock.nowMs();
    const registers = new Map<string, number>();
    for (const ask of dialect.regulation.asks) {
      const { value } = await session.query(inChannel(ask, dialect), registerReply);
      registers.set(ask, value);
    }
    const regulation = learner.witness(clear, registers);
    if (regulation === null) return;
    dialect = { ...dialect, regulation };
    plan = pollPlan(dialect);
    onLearned(dialect);
  }

  return {
    decimals,
    async read(set) {
      const steps = plan[turn % plan.length]!;
      turn += 1;
      const parts: Partial<Record<PollPart, unknown>> = {};
      let sentMs = Number.NaN;
      let gotMs = Number.NaN;
      for (const step of steps) {
        const timeoutMs = Math.min(
          LONGEST_WAIT_MS,
          Math.max(LEAST_WAIT_MS, WAIT_TIMES * slowestMs),
        );
        const answer = await session.query(step.message, step.shape, { timeoutMs });
        slowestMs = Math.max(slowestMs * 0.99, answer.gotMs - answer.sentMs);
        if (Number.isNaN(sentMs)) sentMs = answer.sentMs;
        gotMs = answer.gotMs;
        for (let i = 0; i < step.parts.length; i += 1) parts[step.parts[i]!] = answer.value[i];
      }
      if (parts.channel !== undefined && parts.channel !== dialect.channel.number) {
        throw otherChannel(session.name, dialect.channel.number, parts.channel as number);
      }
      const both = parts.both as readonly NumericReply[] | undefined;
      const volts = plainValue(both?.[0] ?? (parts.volts as NumericReply | undefined), 'volts');
      const amps = plainValue(both?.[1] ?? (parts.amps as NumericReply | undefined), 'amps');
      const outputOn = (parts.output as boolean | undefined) ?? null;
      const facts = { volts, amps, ...set, outputOn };
      const regulation: Regulation | null = told(parts, outputOn) ?? inferRegulation(facts);
      if (learner !== null) await learn(facts);
      return { volts, amps, regulation, outputOn, sentMs, gotMs };
    },
  };
}

function otherChannel(where: string, due: number, selected: number): WakelineError {
  return new WakelineError({
    code: 'instrument-refused',
    what: `Channel ${selected} is selected at the supply, and channel ${due} is being watched`,
    where,
    todo: `Select channel ${due} at the supply again, or connect it anew to watch the other one.`,
  });
}
