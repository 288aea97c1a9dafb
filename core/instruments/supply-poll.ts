import {
  ampsReply,
  booleanReply,
  compoundReply,
  type ReplyShape,
  registerReply,
  voltsReply,
  wordReply,
} from '../scpi/response-shape.ts';
import type { SupplyDialect } from './supply-dialect.ts';

/** What one field of a poll tells. */
export type PollPart = 'volts' | 'amps' | 'register' | 'mode' | 'output';

/** One message of a poll and what its answer's fields tell, in order. */
export interface PollStep {
  readonly message: string;
  readonly parts: readonly PollPart[];
  readonly shape: ReplyShape<readonly unknown[]>;
}

/** The messages of a poll. With two turns, polls take them in turn. */
export interface PollPlan {
  readonly turns: readonly (readonly PollStep[])[];
}

const SHAPES: Readonly<Record<PollPart, ReplyShape<unknown>>> = {
  volts: voltsReply,
  amps: ampsReply,
  register: registerReply,
  mode: wordReply,
  output: booleanReply,
};

/** The message with its channel put in. */
export function inChannel(message: string, dialect: SupplyDialect): string {
  return message.replaceAll('{channel}', String(dialect.channel.number));
}

function step(parts: readonly [PollPart, string][]): PollStep {
  return {
    message: parts.map(([, ask]) => ask).join(';'),
    parts: parts.map(([part]) => part),
    shape: compoundReply(parts.map(([part]) => SHAPES[part])),
  };
}

/** The second header without the path that it shares with the first: `:MEAS:CURR?` after `:MEAS:VOLT?`. */
export function relativeHeader(message: string): string {
  const [header = '', ...rest] = message.split(' ');
  return [header.slice(header.lastIndexOf(':') + 1), ...rest].join(' ');
}

/**
 * How a supply is polled in its dialect. In one compound message, readings belong together and
 * cost one round; its turns differ in the number of fields, so that the reply to the poll before
 * can never pass for the reply to this one.
 */
export function pollPlan(dialect: SupplyDialect): PollPlan {
  const volts: [PollPart, string] = ['volts', inChannel(dialect.measureVolts, dialect)];
  const amps: [PollPart, string] = ['amps', inChannel(dialect.measureAmps, dialect)];
  const rest: [PollPart, string][] = [];
  if (dialect.regulation.by === 'register') {
    rest.push(['register', inChannel(dialect.regulation.ask, dialect)]);
  } else if (dialect.regulation.by === 'mode') {
    rest.push(['mode', inChannel(dialect.regulation.ask, dialect)]);
  }
  const output: [PollPart, string][] =
    dialect.askOutput === null ? [] : [['output', inChannel(dialect.askOutput, dialect)]];
  if (dialect.compound === 'separate') {
    return { turns: [[volts, amps, ...rest, ...output].map((part) => step([part]))] };
  }
  if (dialect.compound === 'relative') {
    const pair = step([volts, ['amps', relativeHeader(amps[1])]]);
    return { turns: [[pair, ...[...rest, ...output].map((part) => step([part]))]] };
  }
  const whole = [volts, amps, ...rest, ...output];
  if (output.length === 0) return { turns: [[step(whole)]] };
  return { turns: [[step(whole)], [step([...output, ...whole])]] };
}
