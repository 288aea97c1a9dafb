import { badTraceFile } from './csv-trouble.ts';

/** No logger writes a longer line: what has none of its own is no text. */
const LONGEST_LINE = 1 << 20;

/** Cuts text that arrives in pieces into lines; `\n`, `\r\n` and `\r` end a line. */
export interface LineCutter {
  /** Calls `use` for each line that is complete now. */
  push(text: string, use: (line: string) => void): void;
  /** Calls `use` for what stands after the last line end, if anything does. */
  finish(use: (line: string) => void): void;
}

/**
 * A cutter at the start of a file; a byte order mark is dropped. Throws `bad-trace-file` for a
 * line of more than a million characters.
 */
export function createLineCutter(): LineCutter {
  let rest = '';
  let isFirst = true;
  let lines = 0;

  return {
    push(text, use) {
      let all = rest + text;
      if (isFirst && all.length > 0) {
        isFirst = false;
        if (all.charCodeAt(0) === 0xfeff) all = all.slice(1);
      }
      let from = 0;
      const hasReturns = all.includes('\r');
      for (;;) {
        let end = all.indexOf('\n', from);
        if (hasReturns) {
          const back = all.indexOf('\r', from);
          // A return at the very end may be the first half of a pair.
          if (back === all.length - 1 && (end === -1 || back < end)) break;
          if (back !== -1 && (end === -1 || back < end)) {
            lines += 1;
            use(all.slice(from, back));
            from = all.charCodeAt(back + 1) === 10 ? back + 2 : back + 1;
            continue;
          }
        }
        if (end === -1) break;
        lines += 1;
        use(all.slice(from, end));
        end += 1;
        from = end;
      }
      rest = all.slice(from);
      if (rest.length > LONGEST_LINE) throw lineWithoutEnd(lines + 1);
    },
    finish(use) {
      const line = rest.endsWith('\r') ? rest.slice(0, -1) : rest;
      rest = '';
      if (line !== '') use(line);
    },
  };
}

function lineWithoutEnd(row: number) {
  return badTraceFile(
    'The file has a line without an end: it is no text table',
    `row ${row}, column 1`,
    'Give a text file with a row a sample: time, volts and amps, with a header line above.',
  );
}
