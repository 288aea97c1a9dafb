/**
 * Whether a line is chatter that answers nothing: the echo of what was sent, an acknowledgement
 * (`OK`), a bare prompt, or the identity said again by a resync that came late.
 */
export function isNoise(line: string, sent: string, identity: string | null): boolean {
  if (/^(?:OK\.?|>+)$/i.test(line)) return true;
  if (isSame(line, sent)) return true;
  return identity !== null && line === identity && !isSame(sent, '*IDN?');
}

/** A reply without the prompt that some virtual serial ports put before it (`> 3.300`). */
export function withoutPrompt(line: string): string {
  return line.startsWith('>') ? line.replace(/^>+\s*/, '') : line;
}

function isSame(line: string, sent: string): boolean {
  return line.length === sent.length && line.toUpperCase() === sent.toUpperCase();
}
