import { describe, expect, it } from 'vitest';
import { meterDialect } from '../../../core/instruments/meter-dialect.ts';
import { METER_DIALECTS } from '../../../core/instruments/meter-dialects.ts';
import { supplyDialect } from '../../../core/instruments/supply-dialect.ts';
import { SUPPLY_DIALECTS } from '../../../core/instruments/supply-dialects.ts';

describe('dialects', () => {
  it('that come with the app pass their own schema, each under its own key', () => {
    for (const dialect of SUPPLY_DIALECTS) expect(supplyDialect.parse(dialect)).toEqual(dialect);
    for (const dialect of METER_DIALECTS) expect(meterDialect.parse(dialect)).toEqual(dialect);
    const keys = [...SUPPLY_DIALECTS, ...METER_DIALECTS].map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('ask and measure with queries only, and none resets or clears', () => {
    for (const dialect of SUPPLY_DIALECTS) {
      const { measureVolts, measureAmps, askSetVolts, askSetAmps, askOutput } = dialect;
      const asks = [measureVolts, measureAmps, askSetVolts, askSetAmps, askOutput];
      for (const ask of asks.filter((one) => one !== null)) {
        expect(ask.split(' ')[0], ask).toMatch(/\?$/);
      }
      expect(JSON.stringify(dialect)).not.toMatch(/\*RST|\*CLS/i);
    }
    for (const { read, askFunction } of METER_DIALECTS) {
      expect(read).toMatch(/\?$/);
      expect(askFunction).toMatch(/\?$/);
    }
  });

  it('are refused with an unknown key, a control character or a line end in a message', () => {
    const [plain] = SUPPLY_DIALECTS;
    expect(supplyDialect.safeParse({ ...plain, colour: 'red' }).success).toBe(false);
    expect(supplyDialect.safeParse({ ...plain, outputOff: 'OUTP OFF\n*RST' }).success).toBe(false);
    expect(supplyDialect.safeParse({ ...plain, measureVolts: '' }).success).toBe(false);
    expect(supplyDialect.safeParse({ ...plain, pauseMs: -1 }).success).toBe(false);
  });
});
