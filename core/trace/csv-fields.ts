/** What stands between the fields of a row; `blanks` is any run of spaces and tabs. */
export type Separator = ',' | ';' | '\t' | '|' | 'blanks';

/**
 * The fields of one line, without blanks around them. Fields may be quoted by RFC 4180: `""`
 * inside quotes is one quote. A line end inside quotes is not supported (no logger writes one),
 * so one stray quote never swallows the rows after it.
 *
 * Our own few lines and not a CSV package, because those stream through Node's own stream type,
 * which `core/` may not know, and none tells a glued row from a whole one.
 */
export function splitFields(line: string, separator: Separator): string[] {
  if (separator === 'blanks') {
    const trimmed = line.trim();
    return trimmed === '' ? [] : trimmed.split(/\s+/);
  }
  const fields = line.includes('"') ? splitQuoted(line, separator) : line.split(separator);
  for (let i = 0; i < fields.length; i += 1) {
    const field = fields[i]!;
    // Most fields need no trimming, and asking is cheaper than doing.
    if (field.charCodeAt(0) <= 32 || field.charCodeAt(field.length - 1) <= 32) {
      fields[i] = field.trim();
    }
  }
  return fields;
}

function splitQuoted(line: string, separator: string): string[] {
  const fields: string[] = [];
  let at = 0;
  for (;;) {
    const start = skipBlanks(line, at, separator);
    const quoted = line[start] === '"' ? readQuoted(line, start, separator) : null;
    if (quoted !== null) {
      fields.push(quoted.text);
      at = quoted.end;
    } else {
      const end = line.indexOf(separator, at);
      fields.push(line.slice(at, end === -1 ? undefined : end));
      at = end === -1 ? line.length : end;
    }
    if (at >= line.length) return fields;
    at += 1;
    if (at === line.length) {
      fields.push('');
      return fields;
    }
  }
}

/** A field that begins with a quote and ends with one before a separator; null when it does not. */
function readQuoted(
  line: string,
  start: number,
  separator: string,
): { text: string; end: number } | null {
  let text = '';
  let at = start + 1;
  for (;;) {
    const quote = line.indexOf('"', at);
    if (quote === -1) return null;
    text += line.slice(at, quote);
    if (line[quote + 1] === '"') {
      text += '"';
      at = quote + 2;
      continue;
    }
    const end = skipBlanks(line, quote + 1, separator);
    return end >= line.length || line[end] === separator ? { text, end } : null;
  }
}

function skipBlanks(line: string, from: number, separator: string): number {
  let at = from;
  while (at < line.length && line[at] !== separator && (line[at] === ' ' || line[at] === '\t')) {
    at += 1;
  }
  return at;
}
