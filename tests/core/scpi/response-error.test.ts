import { describe, expect, it } from 'vitest';
import {
  decodeErrorEntry,
  errorWords,
  unsolicitedError,
} from '../../../core/scpi/response-error.ts';

describe('an error-queue entry', () => {
  it('is empty in all the ways that instruments print it', () => {
    for (const text of ['0,"No error"', '+0,"No error"', '0,No error', '0, "No error"']) {
      expect(decodeErrorEntry(text), text).toEqual({ code: 0, text: 'No error', detail: '' });
    }
  });

  it('keeps code, text and detail apart (SYST:ERR? after ABCD in the tests of j123b567/scpi-parser)', () => {
    expect(decodeErrorEntry('-113,"Undefined header;ABCD"')).toEqual({
      code: -113,
      text: 'Undefined header',
      detail: 'ABCD',
    });
    expect(decodeErrorEntry('-350,"Queue overflow"')?.code).toBe(-350);
    expect(decodeErrorEntry('-350,"Too many errors"')?.code).toBe(-350);
  });

  it('is told in words', () => {
    expect(errorWords({ code: -113, text: 'Undefined header', detail: 'MEAS:VOLT?' })).toBe(
      '-113 Undefined header (MEAS:VOLT?)',
    );
  });

  it('is no number, no reading and no identity', () => {
    for (const text of ['3.3', '1,2', '0', 'MA,IN,0,VER', '', '4.105,0.512', '-113', '1,5.678']) {
      expect(decodeErrorEntry(text), text).toBeUndefined();
    }
  });
});

describe('a line that an instrument says out of turn', () => {
  it('is known by its opening, and gives its error', () => {
    const lines = [
      '**ERROR [2024-05-01]: -113,"Undefined header"',
      '[scpi] **ERROR: -113, "Undefined header"',
      '**ERROR: -113,"Undefined header"',
    ];
    for (const line of lines) expect(unsolicitedError(line)?.code, line).toBe(-113);
    expect(unsolicitedError('[scpi] ready')).toBeNull();
  });

  it('is no reply', () => {
    for (const line of ['3.3', '-113,"Undefined header"', '"CV"']) {
      expect(unsolicitedError(line), line).toBeUndefined();
    }
  });
});
