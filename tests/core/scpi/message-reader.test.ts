import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createMessageReader } from '../../../core/scpi/message-reader.ts';

const bytes = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));
const texts = (text: string) =>
  createMessageReader(256)(bytes(text)).map((event) =>
    event.kind === 'message' ? event.text : event.kind,
  );

describe('createMessageReader', () => {
  it('ends a message at LF, CR and CR LF', () => {
    expect(texts('A\nB\rC\r\nD')).toEqual(['A', 'B', 'C']);
  });

  it('waits for the terminator across pieces (j123b567/scpi-parser, test_parser.c)', () => {
    const read = createMessageReader(256);
    expect(read(bytes('*ID'))).toEqual([]);
    expect(read(bytes('N?'))).toEqual([]);
    expect(read(bytes('\r\n'))).toEqual([{ kind: 'message', text: '*IDN?' }]);
  });

  it('does not end a message inside a quoted string (IEEE 488.2, 7.7.5)', () => {
    expect(texts('TEXT? "", "test\r\n"\r\n')).toEqual(['TEXT? "", "test\r\n"']);
    expect(texts("A 'x\ny'\nB\n")).toEqual(["A 'x\ny'", 'B']);
  });

  it('does not end a message inside a definite-length block (IEEE 488.2, 7.7.6)', () => {
    expect(texts('A #12\r\n\nB\n')).toEqual(['A #12\r\n', 'B']);
    expect(texts('A #213"abcd\nefghij\n\nB\n')).toEqual(['A #213"abcd\nefghij\n', 'B']);
  });

  it('takes a number sign before letters for no block', () => {
    expect(texts('*ESE #H20\n*IDN?\n')).toEqual(['*ESE #H20', '*IDN?']);
  });

  it('drops a message that runs over, up to its terminator', () => {
    expect(texts(`${'A'.repeat(300)}OUTP ON\n*IDN?\n`)).toEqual(['overrun', '*IDN?']);
  });

  it('reads the same messages however the bytes are split', () => {
    const text = `*IDN?\r\nA "x\n", #13\n;\n;B\n${'Z'.repeat(300)}\nC 'it''s'\n`;
    const whole = texts(text);
    fc.assert(
      fc.property(fc.array(fc.nat(text.length), { maxLength: 12 }), (cuts) => {
        const read = createMessageReader(256);
        const at = [0, ...cuts.toSorted((a, b) => a - b), text.length];
        const events = at.slice(1).flatMap((end, i) => read(bytes(text.slice(at[i], end))));
        const pieces = events.map((event) => (event.kind === 'message' ? event.text : event.kind));
        expect(pieces).toEqual(whole);
      }),
    );
  });
});
