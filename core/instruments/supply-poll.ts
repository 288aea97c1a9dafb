import {
  ampsReply,
  booleanReply,
  compoundReply,
  type ReplyShape,
  registerReply,
  voltsReply,
  wordReply,
} from '../scpi/response-shape.ts';
import { inChannel, type SupplyDialect } from './supply-dialect.ts';

/** What one field of a poll tells. */
export type PollPart = 'volts' | 'amps' | 'register' | 'mode' | 'output' | 'channel';

/** One message of a poll and what its answer's fields tell, in order. */
export interface PollStep {
  readonly message: string;
  readonly parts: readonly PollPart[];
  readonly shape: ReplyShape<readonly unknown[]>;
}

/** The messages of a poll. With two turns, polls take them in turn. */
export type PollPlan = readonly (readonly PollStep[])[];

const SHAPES: Readonly<Record<PollPart, ReplyShape<unknown>>> = {
  volts: voltsReply,
  amps: ampsReply,
  register: registerReply,
  mode: wordReply,
  output: booleanReply,
  channel: registerReply,
};

type Asked = readonly [part: PollPart, ask: string];

function step(asked: readonly Asked[], join = ';'): PollStep {
  return {
    message: asked.map(([, ask]) => ask).join(join),
    parts: asked.map(([part]) => part),
    shape: compoundReply(asked.map(([part]) => SHAPES[part])),
  };
}

/** The last word of a header, which continues the path of the one before it in the message. */
function relativeHeader(ask: string): string {
  const [header = '', ...rest] = ask.split(' ');
  return [header.slice(header.lastIndexOf(':') + 1), ...rest].join(' ');
}

/**
 * How a supply is polled in its dialect. In one compound message, readings belong together and
 * cost one round; its turns differ in the number of fields, so that the reply to the poll before
 * can never pass for the reply to this one.
 */
export function pollPlan(dialect: SupplyDialect): PollPlan {
  const asked = (part: PollPart, ask: string | null): Asked[] =>
    ask === null ? [] : [[part, inChannel(ask, dialect)]];
  const volts = asked('volts', dialect.measureVolts);
  const amps = asked('amps', dialect.measureAmps);
  const told = dialect.regulation;
  const regulation: Asked[] =
    told.by === 'register'
      ? asked('register', told.ask)
      : told.by === 'mode'
        ? asked('mode', told.ask)
        : [];
  const output = asked('output', dialect.askOutput);
  const channel = dialect.channel.form === 'select' ? asked('channel', dialect.askChannel) : [];
  const rest = [...regulation, ...output, ...channel];
  if (dialect.compound === 'separate') {
    return [[...volts, ...amps, ...rest].map((one) => step([one]))];
  }
  if (dialect.compound === 'relative') {
    const pair: Asked[] = [...volts, ['amps', relativeHeader(amps[0]![1])]];
    return [[step(pair), ...rest.map((one) => step([one]))]];
  }
  // A colon takes each header from the root; a common command has none.
  const join = dialect.compound === 'full' ? ';:' : ';';
  const whole = [...volts, ...amps, ...rest];
  const longer = output.length > 0 ? [...output, ...whole] : [...whole, ...volts];
  return [[step(whole, join)], [step(longer, join)]];
}
