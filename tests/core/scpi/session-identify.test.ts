import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { numberReply, voltsReply } from '../../../core/scpi/response-shape.ts';
import { openSession } from '../../../core/scpi/session.ts';
import { type Manners, tableLink } from '../../support/table-link.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

const WHO = 'BENCHWORKS,TWO-FORTY,000017,1.4';

function device(manners: Manners, who = WHO) {
  const clock = virtualClock();
  const link = tableLink(
    clock,
    [
      [/^\*IDN\?$/i, who],
      [/^MEAS:VOLT\?$/i, '3.300'],
    ],
    manners,
  );
  return { clock, link, session: openSession(link, clock) };
}

async function failure(work: Promise<unknown>): Promise<WakelineError> {
  const thrown = await work.then(
    () => null,
    (error: unknown) => error,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return thrown as WakelineError;
}

describe('getting to know an instrument', () => {
  it('asks who it is until two answers agree', async () => {
    const { clock, link, session } = device({});
    expect(await clock.settle(session.identify())).toBe(WHO);
    expect(session.name).toBe(`${WHO} on table link`);
    expect(link.taken).toEqual(['*IDN?', '*IDN?']);
  });

  it('takes no boot banner for an identity, before the first question or across it', async () => {
    for (const atMs of [0, 30, 51, 53]) {
      const { clock, link, session } = device({ latencyMs: 5 });
      clock.setTimer(() => link.say('\r\nTWO-FORTY starting\r\nself test passed\r\n'), atMs);
      expect(await clock.settle(session.identify()), `banner at ${atMs} ms`).toBe(WHO);
      const { value } = await clock.settle(session.query('MEAS:VOLT?', voltsReply));
      expect(value).toMatchObject({ value: 3.3 });
    }
  });

  it('finds out that replies end with CR alone, or not at all', async () => {
    for (const end of ['\r', '']) {
      const { clock, session } = device({ end }, 'MODELV2.0');
      expect(await clock.settle(session.identify())).toBe('MODELV2.0');
      const { value } = await clock.settle(session.query('MEAS:VOLT?', voltsReply));
      expect(value).toMatchObject({ value: 3.3 });
    }
  });

  it('finds out that messages must end with CR LF, or with nothing', async () => {
    for (const takes of ['\r\n', ''] as const) {
      const { clock, session } = device({ takes });
      expect(await clock.settle(session.identify())).toBe(WHO);
      const { value } = await clock.settle(session.query('MEAS:VOLT?', voltsReply));
      expect(value).toMatchObject({ value: 3.3 });
    }
  });

  it('finds the pause that a deaf instrument needs between messages', async () => {
    const { clock, session } = device({ deafMs: 45, latencyMs: 20 });
    await clock.settle(session.identify());
    expect(session.pauseMs).toBe(50);
    for (let i = 0; i < 20; i += 1) {
      const { value } = await clock.settle(session.query('MEAS:VOLT?', voltsReply, { retries: 0 }));
      expect(value).toMatchObject({ value: 3.3 });
    }
  });

  it('works at 9600 baud with 50 ms between messages', async () => {
    const { clock, session } = device({ baud: 9600, deafMs: 49, latencyMs: 15 });
    await clock.settle(session.identify());
    const { sentMs, gotMs } = await clock.settle(session.query('MEAS:VOLT?', numberReply));
    // 11 characters out, 7 in, 10 bits each, and the instrument's own 15 ms.
    expect(gotMs - sentMs).toBeCloseTo((18 * 10_000) / 9600 + 15, 6);
  });

  it('drops the echo of its question', async () => {
    const { clock, session } = device({ echo: true });
    expect(await clock.settle(session.identify())).toBe(WHO);
  });

  it('says so when nothing answers', async () => {
    const { clock, session } = device({ deafMs: Number.POSITIVE_INFINITY });
    const { trouble } = await clock.settle(failure(session.identify()));
    expect(trouble).toMatchObject({ code: 'no-answer', where: 'table link' });
    expect(trouble.todo).toContain('baud rate');
  });

  it('says so when only garbage answers, as at a wrong baud rate', async () => {
    const { clock, session } = device({ end: '\xfe\n' }, '\xf8\x00\x9f\xe0');
    const { trouble } = await clock.settle(failure(session.identify()));
    expect(trouble.code).toBe('bad-reply');
    expect(trouble.what).toContain('\\xf8\\x00\\x9f\\xe0\\xfe');
  });

  it('says so when two instruments answer in turn', async () => {
    const clock = virtualClock();
    let turn = 0;
    const link = tableLink(clock, [
      [
        /^\*IDN\?$/,
        () => {
          turn += 1;
          return `MAKER,MODEL,${turn},1`;
        },
      ],
    ]);
    const work = failure(openSession(link, clock).identify());
    const { trouble } = await clock.settle(work);
    expect(trouble.what).toContain('differently every time');
  });
});
