/**
 * Whether a line is chatter that answers nothing: the echo of a message just sent, an
 * acknowledgement (`OK`) or a bare prompt.
 */
export function isNoise(line: string, sent: readonly string[]): boolean {
  return /^(?:OK|DONE|READY)?[.!]?$/i.test(line) || sent.some((message) => isSame(line, message));
}

/** Prompts of virtual serial ports: `>`, `=>`, `SCPI>`. No reply has the sign after one word. */
const PROMPT = /^(?:[\w=?!*.-]{0,12}>\s*)+/;

/** A reply without the prompt that some virtual serial ports put before it (`> 3.300`). */
export function withoutPrompt(line: string): string {
  return line.includes('>') ? line.replace(PROMPT, '') : line;
}

/** A reply without the echo of its own query, on instruments that echo a message without its end. */
export function withoutEcho(line: string, query: string): string {
  const isEchoed =
    query !== '' && line.length > query.length && isSame(line.slice(0, query.length), query);
  return isEchoed ? line.slice(query.length).trimStart() : line;
}

function isSame(line: string, sent: string): boolean {
  return line.length === sent.length && line.toUpperCase() === sent.toUpperCase();
}
