/** Standard error numbers with their words: SCPI-1999 vol. 2, SYSTem:ERRor (chapter 21.8). */
export const SCPI_ERRORS: Readonly<Record<number, string>> = {
  0: 'No error',
  [-100]: 'Command error',
  [-101]: 'Invalid character',
  [-102]: 'Syntax error',
  [-103]: 'Invalid separator',
  [-104]: 'Data type error',
  [-105]: 'GET not allowed',
  [-108]: 'Parameter not allowed',
  [-109]: 'Missing parameter',
  [-110]: 'Command header error',
  [-111]: 'Header separator error',
  [-112]: 'Program mnemonic too long',
  [-113]: 'Undefined header',
  [-114]: 'Header suffix out of range',
  [-115]: 'Unexpected number of parameters',
  [-120]: 'Numeric data error',
  [-121]: 'Invalid character in number',
  [-123]: 'Exponent too large',
  [-124]: 'Too many digits',
  [-128]: 'Numeric data not allowed',
  [-130]: 'Suffix error',
  [-131]: 'Invalid suffix',
  [-134]: 'Suffix too long',
  [-138]: 'Suffix not allowed',
  [-140]: 'Character data error',
  [-141]: 'Invalid character data',
  [-144]: 'Character data too long',
  [-148]: 'Character data not allowed',
  [-150]: 'String data error',
  [-151]: 'Invalid string data',
  [-158]: 'String data not allowed',
  [-160]: 'Block data error',
  [-161]: 'Invalid block data',
  [-168]: 'Block data not allowed',
  [-170]: 'Expression error',
  [-171]: 'Invalid expression',
  [-178]: 'Expression data not allowed',
  [-200]: 'Execution error',
  [-203]: 'Command protected',
  [-210]: 'Trigger error',
  [-211]: 'Trigger ignored',
  [-213]: 'Init ignored',
  [-220]: 'Parameter error',
  [-221]: 'Settings conflict',
  [-222]: 'Data out of range',
  [-223]: 'Too much data',
  [-224]: 'Illegal parameter value',
  [-225]: 'Out of memory',
  [-230]: 'Data corrupt or stale',
  [-231]: 'Data questionable',
  [-240]: 'Hardware error',
  [-241]: 'Hardware missing',
  [-300]: 'Device-specific error',
  [-310]: 'System error',
  [-311]: 'Memory error',
  [-313]: 'Calibration memory lost',
  [-320]: 'Storage fault',
  [-321]: 'Out of memory',
  [-330]: 'Self-test failed',
  [-340]: 'Calibration failed',
  [-350]: 'Queue overflow',
  [-360]: 'Communication error',
  [-361]: 'Parity error in program message',
  [-362]: 'Framing error in program message',
  [-363]: 'Input buffer overrun',
  [-365]: 'Time out error',
  [-400]: 'Query error',
  [-410]: 'Query INTERRUPTED',
  [-420]: 'Query UNTERMINATED',
  [-430]: 'Query DEADLOCKED',
  [-440]: 'Query UNTERMINATED after indefinite response',
};

/** The words of an error number; a number the standard does not list gets its class's words. */
export function errorText(number: number): string {
  const exact = SCPI_ERRORS[number];
  if (exact !== undefined) return exact;
  if (number > 0) return 'Device-specific error';
  return SCPI_ERRORS[-100 * Math.floor(-number / 100)] ?? 'Unknown error';
}

/**
 * The standard event register bit that an error number sets: command 32, execution 16,
 * device 8, query 4 (IEEE 488.2, 11.5.1), power on 128, user request 64, request control 2,
 * operation complete 1.
 */
export function eventBitOf(number: number): number {
  if (number > 0) return 8;
  const errorClass = Math.floor(-number / 100);
  return [0, 32, 16, 8, 4, 128, 64, 2, 1][errorClass] ?? 0;
}
