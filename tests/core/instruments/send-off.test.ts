import { describe, expect, it } from 'vitest';
import { sendOff } from '../../../core/instruments/send-off.ts';
import type { SwitchOff } from '../../../core/instruments/switch-off.ts';
import { type Feeding, feeding, scpiTable } from '../../support/odd-supplies.ts';
import { type Manners, tableLink } from '../../support/table-link.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

const HOW: SwitchOff = {
  identity: 'BENCHWORKS,ODD-ONE,000021,2.0',
  select: null,
  off: 'OUTP OFF',
  takeRemote: null,
  askOutput: 'OUTP?',
  pauseMs: 0,
  messageEnd: '\n',
  replyEnd: 'lf',
};

function supply(state: Feeding, manners: Manners = {}) {
  const clock = virtualClock();
  const link = tableLink(clock, scpiTable(state).table, manners);
  const send = (how: Partial<SwitchOff> = {}) =>
    clock.settle(sendOff(link, clock, { ...HOW, ...how }));
  return { clock, link, send };
}

describe('switching off a supply on a line in an unknown state', () => {
  it('switches off and reads back', async () => {
    const state = feeding({ isOn: true });
    const { link, send } = supply(state);
    expect((await send()).result).toBe('read-back-off');
    expect(state.isOn).toBe(false);
    expect(link.taken.filter((message) => message !== '')).toEqual(['OUTP OFF', '*IDN?', 'OUTP?']);
  });

  it('ends a message that was cut off half-way, so that OFF is not glued to it', async () => {
    const state = feeding({ isOn: true });
    const { link, send } = supply(state);
    link.write(Uint8Array.from([...'OUTP O'].map((letter) => letter.charCodeAt(0))));
    expect((await send()).result).toBe('read-back-off');
    expect(state.isOn).toBe(false);
  });

  it('does not take a late 0 to an earlier question for its own read-back', async () => {
    const state = feeding({ isOn: true });
    const clock = virtualClock();
    const deaf = scpiTable(state).table.filter(([pattern]) => !pattern.test('OUTP OFF'));
    const link = tableLink(clock, deaf, {});
    link.say('0\r\n');
    clock.setTimer(() => link.say('0\r\n'), 1);
    expect((await clock.settle(sendOff(link, clock, HOW))).result).toBe('stays-on');
  });

  it('keeps the pause that the supply needs', async () => {
    const state = feeding({ isOn: true });
    const { send } = supply(state, { deafMs: 50, baud: 9600 });
    expect((await send({ pauseMs: 50 })).result).toBe('read-back-off');
    expect(state.isOn).toBe(false);
  });

  it('slows down by itself where no pause was told and one is needed', async () => {
    const state = feeding({ isOn: true });
    const { send } = supply(state, { deafMs: 50, baud: 9600 });
    expect((await send()).result).toBe('read-back-off');
  });

  it('never believes another instrument', async () => {
    const { send } = supply(feeding());
    expect((await send({ identity: 'BENCHWORKS,OTHER,9,9' })).result).toBe('another');
  });

  it('says that it was told where a supply cannot tell', async () => {
    const state = feeding({ isOn: true });
    const { send } = supply(state);
    expect((await send({ askOutput: null })).result).toBe('told');
    expect(state.isOn).toBe(false);
  });

  it('says when OFF was sent although the line went dead behind it', async () => {
    const state = feeding({ isOn: true });
    const { clock, link } = supply(state);
    const sent = sendOff(link, clock, HOW);
    clock.setTimer(() => link.pull(), 1);
    const { result, offMs } = await clock.settle(sent);
    expect(result).toBe('silent');
    expect(offMs).toBe(0);
  });
});
