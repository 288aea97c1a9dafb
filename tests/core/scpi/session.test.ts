import { describe, expect, it } from 'vitest';
import { type Trouble, WakelineError } from '../../../core/errors.ts';
import {
  ampsReply,
  booleanReply,
  compoundReply,
  errorReply,
  numberReply,
  voltsReply,
  wordReply,
} from '../../../core/scpi/response-shape.ts';
import { openSession, type Session } from '../../../core/scpi/session.ts';
import { type Exchange, type ScriptedLink, scriptedLink } from '../../support/scripted-link.ts';
import { type VirtualClock, virtualClock } from '../../support/virtual-clock.ts';

const WHO = 'BENCHWORKS,TWO-FORTY,000017,1.4';
const KNOWN: Exchange[] = [
  ['*IDN?', `${WHO}\r\n`],
  ['*IDN?', `${WHO}\r\n`],
];

interface Set {
  clock: VirtualClock;
  link: ScriptedLink;
  session: Session;
}

/** A session that knows who answers, on a link that goes on with `script`. */
async function known(script: readonly Exchange[]): Promise<Set> {
  const clock = virtualClock();
  const link = scriptedLink(clock, [...KNOWN, ...script]);
  const session = openSession(link, clock);
  await clock.settle(session.identify());
  return { clock, link, session };
}

async function troubleIn(clock: VirtualClock, work: Promise<unknown>): Promise<Trouble> {
  const thrown = await clock.settle(
    work.then(
      () => null,
      (error: unknown) => error,
    ),
  );
  if (thrown instanceof WakelineError) return thrown.trouble;
  throw thrown ?? new Error('nothing was thrown');
}

describe('a session', () => {
  it('answers a query with its value and the times of request and response', async () => {
    const { clock, link, session } = await known([['MEAS:VOLT?', [[8, '3.3000\r\n']]]]);
    const startMs = clock.nowMs();
    const answer = await clock.settle(session.query('MEAS:VOLT?', voltsReply));
    expect(answer.value).toMatchObject({ kind: 'value', value: 3.3 });
    expect([answer.sentMs - startMs, answer.gotMs - startMs]).toEqual([0, 8]);
    link.finish();
  });

  it('has one request in flight and answers in order', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', [[30, '3.3\r\n']]],
      ['MEAS:CURR?', [[5, '0.5\r\n']]],
    ]);
    const both = Promise.all([
      session.query('MEAS:VOLT?', voltsReply),
      session.query('MEAS:CURR?', ampsReply),
    ]);
    await clock.pass(20);
    expect(link.sent.slice(2)).toEqual(['MEAS:VOLT?']);
    const [volts, amps] = await clock.settle(both);
    expect([volts.value, amps.value]).toMatchObject([{ value: 3.3 }, { value: 0.5 }]);
    link.finish();
  });

  it('takes a reply that dribbles in pieces for longer than its time-out', async () => {
    const pieces = Array.from('3.29027').map((c) => [150, c] as const);
    const { clock, session } = await known([['READ?', [...pieces, [150, '\r\n']]]]);
    const answer = await clock.settle(session.query('READ?', numberReply, { timeoutMs: 500 }));
    expect(answer.value).toMatchObject({ value: 3.29027 });
  });

  it('never takes a late reply for the answer to the next query', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', [[1100, '12.000\r\n']]],
      ['*IDN?', [[5, `${WHO}\r\n`]]],
      ['MEAS:CURR?', [[5, '0.500\r\n']]],
    ]);
    const volts = session.query('MEAS:VOLT?', voltsReply, { timeoutMs: 1000, retries: 0 });
    const amps = session.query('MEAS:CURR?', numberReply);
    expect((await troubleIn(clock, volts)).code).toBe('no-answer');
    expect((await clock.settle(amps)).value).toMatchObject({ value: 0.5 });
    link.finish();
  });

  it('never takes a reply that is even later than the resync for an answer', async () => {
    const { clock, link, session } = await known([
      // The device is stuck for 2 s and then works off what it was sent, in order.
      ['MEAS:VOLT?', null],
      ['*IDN?', null],
      [
        '*IDN?',
        [
          [1000, '12.000\r\n'],
          [5, `${WHO}\r\n`],
          [5, `${WHO}\r\n`],
        ],
      ],
      ['MEAS:CURR?', '0.500\r\n'],
    ]);
    const volts = session.query('MEAS:VOLT?', voltsReply, { timeoutMs: 300, retries: 0 });
    const amps = session.query('MEAS:CURR?', numberReply);
    expect((await troubleIn(clock, volts)).code).toBe('no-answer');
    expect((await clock.settle(amps)).value).toMatchObject({ value: 0.5 });
    link.finish();
  });

  it('drops a line that nobody asked for and finds its step before it believes the next', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', '3.300\r\n3.300\r\n'],
      ['*IDN?', `${WHO}\r\n`],
      ['MEAS:CURR?', '0.500\r\n'],
    ]);
    await clock.settle(session.query('MEAS:VOLT?', voltsReply));
    const amps = await clock.settle(session.query('MEAS:CURR?', numberReply));
    expect(amps.value).toMatchObject({ value: 0.5 });
    link.finish();
  });

  it('asks a query again after silence, and gives up with what it asked', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', null],
      ['*IDN?', `${WHO}\r\n`],
      ['MEAS:VOLT?', null],
    ]);
    const trouble = await troubleIn(clock, session.query('MEAS:VOLT?', voltsReply));
    expect(trouble).toMatchObject({ code: 'no-answer', where: `${WHO} on scripted link` });
    expect(trouble.what).toBe('No answer to MEAS:VOLT? within 1000 ms');
    link.finish();
  });

  it('calls garbage a bad reply and names instrument, what was sent and what came back', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', '\x00\xff3.3#\r\n'],
      ['*IDN?', `${WHO}\r\n`],
      ['MEAS:VOLT?', '\x00\xff3.3#\r\n'],
    ]);
    const trouble = await troubleIn(clock, session.query('MEAS:VOLT?', voltsReply));
    expect(trouble.code).toBe('bad-reply');
    expect(trouble.where).toContain(WHO);
    expect(trouble.what).toBe(
      'Asked MEAS:VOLT? and got "\\x00\\xff3.3#", where a number in volts was due',
    );
    link.finish();
  });

  it('calls an answer cut in half so, and never hands on the half', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', '12.3'],
      ['*IDN?', `${WHO}\r\n`],
      ['MEAS:VOLT?', '12.3'],
    ]);
    const trouble = await troubleIn(clock, session.query('MEAS:VOLT?', voltsReply));
    expect(trouble.what).toContain('got "12.3", cut off before its end');
    link.finish();
  });

  it('does not glue half an answer to the next one', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', '1'],
      ['*IDN?', `${WHO}\r\n`],
      ['MEAS:VOLT?', '2.000\r\n'],
    ]);
    const answer = await clock.settle(session.query('MEAS:VOLT?', voltsReply));
    expect(answer.value).toMatchObject({ value: 2 });
    link.finish();
  });

  it('drops echo, prompt, OK and acknowledgements', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', 'MEAS:VOLT?\r\n> 3.300\r\n> '],
      ['MEAS:CURR?', 'meas:curr?\r\nOK\r\n0.250\r\n'],
    ]);
    const volts = await clock.settle(session.query('MEAS:VOLT?', voltsReply));
    expect(volts.value).toMatchObject({ value: 3.3 });
    const amps = await clock.settle(session.query('MEAS:CURR?', ampsReply));
    expect(amps.value).toMatchObject({ value: 0.25 });
    link.finish();
  });

  it('ends a query that the instrument refused out of turn, in its words', async () => {
    const { clock, session } = await known([
      ['OUTP:MODE?', '**ERROR [2024-05-01]: -113,"Undefined header"\n'],
    ]);
    const startMs = clock.nowMs();
    const trouble = await troubleIn(clock, session.query('OUTP:MODE?', wordReply));
    expect(trouble.code).toBe('instrument-refused');
    expect(trouble.what).toBe('OUTP:MODE? was refused: -113 Undefined header');
    expect(clock.nowMs() - startMs).toBeLessThan(500);
  });

  it('is not lines behind after an error line beside a good reply', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', '**ERROR [2024-05-01]: -222,"Data out of range"\n3.300\r\n'],
      ['MEAS:CURR?', '0.500\r\n'],
    ]);
    const volts = await clock.settle(session.query('MEAS:VOLT?', voltsReply));
    const amps = await clock.settle(session.query('MEAS:CURR?', ampsReply));
    expect([volts.value, amps.value]).toMatchObject([{ value: 3.3 }, { value: 0.5 }]);
    link.finish();
  });

  it('matches compound replies to the number of queries', async () => {
    const { clock, session } = await known([['MEAS:VOLT?;:MEAS:CURR?', '3.300;0.500\r\n']]);
    const shape = compoundReply([voltsReply, ampsReply]);
    const answer = await clock.settle(session.query('MEAS:VOLT?;:MEAS:CURR?', shape));
    expect(answer.value).toMatchObject([{ value: 3.3 }, { value: 0.5 }]);
  });
});

describe('a set', () => {
  it('is sent once and checked by the error queue', async () => {
    const { clock, link, session } = await known([
      ['SYST:ERR?', '0,"No error"\r\n'],
      ['VOLT 3.3', null],
      ['SYST:ERR?', '0,"No error"\r\n'],
    ]);
    session.hasErrorQueue = true;
    await clock.settle(session.set('VOLT 3.3'));
    link.finish();
  });

  it('is refused in the words of every error it caused, and of none from before', async () => {
    const { clock, link, session } = await known([
      ['SYST:ERR?', '-410,"Query INTERRUPTED"\r\n'],
      ['SYST:ERR?', '+0,"No error"\r\n'],
      ['VOLT 99', 'OK\r\n'],
      ['SYST:ERR?', '-222,"Data out of range;VOLT 99"\r\n'],
      ['SYST:ERR?', '-221,"Settings conflict"\r\n'],
      ['SYST:ERR?', '0, "No error"\r\n'],
    ]);
    session.hasErrorQueue = true;
    const before: number[] = [];
    session.onUnsolicited((entry) => before.push(entry.code));
    const trouble = await troubleIn(clock, session.set('VOLT 99'));
    expect(trouble.what).toBe(
      'VOLT 99 was refused: -222 Data out of range (VOLT 99); -221 Settings conflict',
    );
    expect(before).toEqual([-410]);
    link.finish();
  });

  it('stops draining an error queue that never empties', async () => {
    const clock = virtualClock();
    const endless: Exchange[] = Array.from({ length: 32 }, () => [
      'SYST:ERR?',
      '-350,"Queue overflow"\n',
    ]);
    const link = scriptedLink(clock, [...KNOWN, ...endless]);
    const session = openSession(link, clock);
    await clock.settle(session.identify());
    expect(await clock.settle(session.drainErrors())).toHaveLength(32);
    link.finish();
  });

  it('is not repeated when its check goes unanswered', async () => {
    const { clock, link, session } = await known([
      ['SYST:ERR?', '0,"No error"\n'],
      ['VOLT 3.3', null],
      ['SYST:ERR?', null],
      ['*IDN?', `${WHO}\n`],
      ['SYST:ERR?', '0,"No error"\n'],
    ]);
    session.hasErrorQueue = true;
    await clock.settle(session.set('VOLT 3.3'));
    link.finish();
  });
});

describe('an urgent message', () => {
  it('is written at once, while a reply is pending, and its check goes before all that waits', async () => {
    const { clock, link, session } = await known([
      ['READ?', [[400, '1.0\r\n']]],
      ['OUTP OFF', null],
      ['OUTP?', '0\r\n'],
      ['MEAS:VOLT?', '0.01\r\n'],
    ]);
    const read = session.query('READ?', numberReply);
    const volts = session.query('MEAS:VOLT?', voltsReply);
    await clock.pass(100);
    const atMs = clock.nowMs();
    const off = session.urge('OUTP OFF');
    expect(link.sent.at(-1)).toBe('OUTP OFF');
    expect(clock.nowMs()).toBe(atMs);
    const check = session.query('OUTP?', booleanReply, { lane: 'urgent' });
    await clock.settle(Promise.all([read, off, check, volts]));
    expect((await check).value).toBe(false);
    link.finish();
  });

  it('gives up the sets that waited, so that nothing switches on behind it', async () => {
    const { clock, link, session } = await known([
      ['READ?', [[400, '1.0\r\n']]],
      ['OUTP OFF', null],
    ]);
    const read = session.query('READ?', numberReply);
    const on = session.set('OUTP ON');
    on.catch(() => {});
    await clock.pass(10);
    await session.urge('OUTP OFF');
    const trouble = await troubleIn(clock, on);
    expect(trouble.what).toBe('OUTP ON was not sent: output off was asked for meanwhile');
    await clock.settle(read);
    link.finish();
  });

  it('overtakes a set that has its turn and is not sent yet', async () => {
    const { clock, link, session } = await known([
      ['SYST:ERR?', [[200, '0,"No error"\r\n']]],
      ['OUTP OFF', null],
    ]);
    session.hasErrorQueue = true;
    const on = session.set('OUTP ON');
    on.catch(() => {});
    await clock.pass(50);
    await session.urge('OUTP OFF');
    expect((await troubleIn(clock, on)).what).toContain('was not sent');
    link.finish();
  });

  it('waits for the pause that the instrument needs, and no longer', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', '1.0\r\n'],
      ['OUTP OFF', null],
    ]);
    session.pauseMs = 50;
    await clock.settle(session.query('MEAS:VOLT?', voltsReply));
    const heardMs = clock.nowMs();
    await clock.settle(session.urge('OUTP OFF'));
    expect(clock.nowMs() - heardMs).toBe(50);
    link.finish();
  });
});

describe('the pause between messages', () => {
  it('lets an urgent message go first, and is kept after it too', async () => {
    const { clock, link, session } = await known([
      ['MEAS:VOLT?', '1.0\r\n'],
      ['OUTP OFF', null],
      ['MEAS:CURR?', '0.1\r\n'],
    ]);
    session.pauseMs = 50;
    await clock.settle(session.query('MEAS:VOLT?', voltsReply));
    const amps = session.query('MEAS:CURR?', ampsReply);
    await clock.pass(10);
    const startMs = clock.nowMs() - 10;
    const off = session.urge('OUTP OFF');
    const { sentMs } = await clock.settle(amps);
    await off;
    expect(sentMs - startMs).toBe(100);
    link.finish();
  });

  it('is kept after every reply and every set', async () => {
    const { clock, link, session } = await known([
      ['VOLT 1', null],
      ['VOLT?', '1.0\r\n'],
    ]);
    session.pauseMs = 40;
    const startMs = clock.nowMs();
    await clock.settle(session.set('VOLT 1'));
    await clock.settle(session.query('VOLT?', voltsReply));
    // 40 after the identity, 40 after the set, 1 for the reply.
    expect(clock.nowMs() - startMs).toBe(81);
    link.finish();
  });
});

describe('a lost line', () => {
  it('ends what is pending and what waits, and every later call, with port-lost', async () => {
    const { clock, session } = await known([['MEAS:VOLT?', 'drop the line']]);
    const pulled: boolean[] = [];
    session.onClosed((isPulled) => pulled.push(isPulled));
    const first = session.query('MEAS:VOLT?', voltsReply);
    const second = session.query('SYST:ERR?', errorReply);
    const both = await clock.settle(Promise.allSettled([first, second]));
    const codes = both.map((one) => one.status === 'rejected' && one.reason.trouble.code);
    expect(codes).toEqual(['port-lost', 'port-lost']);
    expect((await troubleIn(clock, session.set('VOLT 1'))).code).toBe('port-lost');
    expect((await troubleIn(clock, session.urge('OUTP OFF'))).code).toBe('port-lost');
    expect(pulled).toEqual([true]);
  });
});

describe('the byte log hook', () => {
  it('hears every byte both ways with its time, in the order of the line', async () => {
    const clock = virtualClock();
    const link = scriptedLink(clock, [
      ...KNOWN,
      [
        '*OPC?',
        [
          [3, '1\r'],
          [2, '\n'],
        ],
      ],
    ]);
    const heard: string[] = [];
    const session = openSession(link, clock, {
      onTraffic: (direction, bytes, atMs) =>
        heard.push(`${atMs} ${direction} ${JSON.stringify(String.fromCharCode(...bytes))}`),
    });
    await clock.settle(session.identify());
    heard.length = 0;
    const atMs = clock.nowMs();
    await clock.settle(session.query('*OPC?', booleanReply));
    expect(heard).toEqual([
      `${atMs} out "*OPC?\\n"`,
      `${atMs + 3} in "1\\r"`,
      `${atMs + 5} in "\\n"`,
    ]);
  });
});
