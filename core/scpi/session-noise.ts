/**
 * Whether a line is chatter that answers nothing: the echo of a message just sent, an
 * acknowledgement (`OK`) or a bare prompt.
 */
export function isNoise(line: string, sent: readonly string[]): boolean {
  return /^(?:OK\.?|>+)$/i.test(line) || sent.some((message) => isSame(line, message));
}

/** A reply without the prompt that some virtual serial ports put before it (`> 3.300`). */
export function withoutPrompt(line: string): string {
  return line.startsWith('>') ? line.replace(/^>+\s*/, '') : line;
}

function isSame(line: string, sent: string): boolean {
  return line.length === sent.length && line.toUpperCase() === sent.toUpperCase();
}
