import { describe, expect, it } from 'vitest';
import { runCli } from './run-cli.ts';

describe('the command line', () => {
  it('prints its verbs when it is asked for help', async () => {
    const { code, out } = await runCli(['--help']);
    expect(code).toBe(0);
    for (const verb of ['stages', 'capture', 'pretend']) expect(out).toContain(verb);
  });

  it('ends with 2 and prints its verbs for a verb that there is not, and for none', async () => {
    const unknown = await runCli(['classify']);
    expect(unknown.code).toBe(2);
    expect(unknown.err).toContain('there is no verb "classify"');
    expect(unknown.out).toBe('');
    expect((await runCli([])).code).toBe(2);
    expect((await runCli(['toString'])).code).toBe(2);
  });
});
