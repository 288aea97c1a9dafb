import { decodeNumber, type NumericReply } from '../scpi/response-number.ts';
import {
  ampsReply,
  booleanReply,
  compoundReply,
  type ReplyShape,
  registerReply,
  voltsReply,
  wordReply,
} from '../scpi/response-shape.ts';
import { splitReply } from '../scpi/response-text.ts';
import { inChannel, type SupplyDialect } from './supply-dialect.ts';

/** What one field of a poll tells. */
export type PollPart = 'both' | 'volts' | 'amps' | 'register' | 'mode' | 'output' | 'channel';

/** One message of a poll and what its answer's fields tell, in order. */
export interface PollStep {
  readonly message: string;
  readonly parts: readonly PollPart[];
  readonly shape: ReplyShape<readonly unknown[]>;
}

/** The messages of a poll. With two turns, polls take them in turn. */
export type PollPlan = readonly (readonly PollStep[])[];

/** Which channel is selected: its number, or a word that ends in it (`CH2`). */
export const channelReply: ReplyShape<number> = {
  due: 'the selected channel',
  decode(text) {
    const number = registerReply.decode(text);
    if (number !== undefined) return number;
    const word = /^"?(?:CH(?:AN)?|OUT(?:P)?)\s?(\d{1,2})"?$/i.exec(text.trim());
    return word === null ? undefined : Number(word[1]);
  },
};

/** Volts and amps in one answer, with or without watts behind them: `4.105,0.512,2.102`. */
export const bothReply: ReplyShape<readonly [NumericReply, NumericReply]> = {
  due: 'volts and amps',
  decode(text) {
    const [first = '', second = '', ...more] = splitReply(text, ',');
    const volts = voltsReply.decode(first);
    const amps = ampsReply.decode(second);
    const isRow = more.length <= 2 && more.every((one) => decodeNumber(one) !== undefined);
    return volts === undefined || amps === undefined || !isRow ? undefined : [volts, amps];
  },
};

const SHAPES: Readonly<Record<PollPart, ReplyShape<unknown>>> = {
  both: bothReply,
  volts: voltsReply,
  amps: ampsReply,
  register: registerReply,
  mode: wordReply,
  output: booleanReply,
  channel: channelReply,
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
  if (dialect.measureBoth !== null) {
    return [[...asked('both', dialect.measureBoth), ...rest].map((one) => step([one]))];
  }
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
