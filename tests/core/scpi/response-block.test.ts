import { describe, expect, it } from 'vitest';
import { readBlock } from '../../../core/scpi/response-block.ts';

const bytes = (text: string) => Uint8Array.from([...text].map((c) => c.charCodeAt(0)));
const content = (text: string) => {
  const state = readBlock(bytes(text));
  return state.kind === 'whole' ? String.fromCharCode(...state.content) : state.kind;
};

describe('a block (tests of the open-source library j123b567/scpi-parser)', () => {
  it('is read by its length, with one or more length digits', () => {
    expect(content('#204ABCD')).toBe('ABCD');
    expect(content('#12AB')).toBe('AB');
    expect(content('#211X1234567890')).toBe('X1234567890');
  });

  it('holds line ends as content, not as an end', () => {
    expect(content('#12\r\n\r\n')).toBe('\r\n');
  });

  it('is not handed on while it is shorter than declared', () => {
    expect(readBlock(bytes('#13AB'))).toEqual({ kind: 'short', need: 1 });
    expect(readBlock(bytes('#2'))).toEqual({ kind: 'short', need: 2 });
    expect(readBlock(bytes('#'))).toEqual({ kind: 'short', need: 1 });
    expect(readBlock(bytes('#213data'))).toEqual({ kind: 'short', need: 9 });
  });

  it('gives 16-bit values big-endian as sent: -5, 18505, 12340', () => {
    const state = readBlock(Uint8Array.of(0x23, 0x31, 0x36, 0xff, 0xfb, 0x48, 0x49, 0x30, 0x34));
    expect(state.kind).toBe('whole');
    if (state.kind !== 'whole') return;
    const view = new DataView(state.content.slice().buffer);
    expect([0, 2, 4].map((at) => view.getInt16(at))).toEqual([-5, 18505, 12340]);
  });

  it('of indefinite length ends at the first line feed', () => {
    expect(content('#0abc\n')).toBe('abc');
    expect(content('#0abc')).toBe('short');
  });

  it('is none when it does not begin as one', () => {
    expect(content('"ABCD"')).toBe('none');
    expect(content('#A12')).toBe('none');
    expect(content('#2x4ABCD')).toBe('none');
  });
});
