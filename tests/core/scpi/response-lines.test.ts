import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineFramer } from '../../../core/scpi/response-lines.ts';

const bytes = (text: string) => Uint8Array.from([...text].map((c) => c.charCodeAt(0)));

function framed(...pieces: string[]): { lines: string[]; partial: string } {
  const lines: string[] = [];
  const framer = lineFramer((line) => lines.push(line));
  for (const piece of pieces) framer.push(bytes(piece));
  return { lines, partial: framer.partial };
}

describe('lines from bytes', () => {
  it('end at LF, CRLF and LF CR alike', () => {
    expect(framed('1.2\n3.4\r\n5.6\n\r7.8\n\r').lines).toEqual(['1.2', '3.4', '5.6', '7.8']);
  });

  it('are put together from any pieces, and an unended one waits', () => {
    expect(framed('3.29', '027, 3.2', '9488\r', '\n1.')).toEqual({
      lines: ['3.29027, 3.29488'],
      partial: '1.',
    });
  });

  it('are the same however the bytes are cut', () => {
    const text = fc.string({ unit: fc.constantFrom('1', '.', ' ', '\r', '\n', 'V', ';') });
    fc.assert(
      fc.property(text, fc.array(fc.nat(8), { minLength: 1 }), (whole, sizes) => {
        const pieces: string[] = [];
        let at = 0;
        for (let i = 0; at < whole.length; i += 1) {
          const size = 1 + sizes[i % sizes.length]!;
          pieces.push(whole.slice(at, at + size));
          at += size;
        }
        expect(framed(...pieces)).toEqual(framed(whole));
      }),
    );
  });

  it('drop empty lines and a line end inside an identity', () => {
    expect(framed('\r\n\n  \nNAME v1.4, built DATE, hv rev 3\n\r\n').lines).toEqual([
      'NAME v1.4, built DATE, hv rev 3',
    ]);
  });

  it('do not grow without end on bytes without line ends, and go on after them', () => {
    const { lines, partial } = framed('x'.repeat(10_000), 'y'.repeat(10_000), '\n3.3\n');
    expect(lines).toEqual(['3.3']);
    expect(partial).toBe('');
  });

  it('can end at CR for instruments that send nothing else', () => {
    const lines: string[] = [];
    const framer = lineFramer((line) => lines.push(line));
    framer.endByte = 13;
    framer.push(bytes('1.2\r\n3.4\r'));
    expect(lines).toEqual(['1.2', '3.4']);
  });
});
