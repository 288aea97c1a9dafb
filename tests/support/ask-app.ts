import type { Page } from '@playwright/test';
import type { AnswerOf, ArgsOf } from '../../core/contract/call.ts';
import type { CallName, Calls } from '../../core/contract/contract.ts';
import type { Result } from '../../core/errors.ts';

/** Asks the app through the page's own bridge and hands the whole answer back. */
export function askApp<N extends CallName>(
  page: Page,
  name: N,
  args: ArgsOf<Calls[N]>,
): Promise<Result<AnswerOf<Calls[N]>>> {
  return page.evaluate(
    ([call, given]) => {
      const { wakeline } = globalThis as unknown as {
        wakeline: Record<string, (given: unknown) => Promise<unknown>>;
      };
      return wakeline[call as string]!(given);
    },
    [name, args] as const,
  ) as Promise<Result<AnswerOf<Calls[N]>>>;
}

/** The same, where only a good answer will do. */
export async function mustAsk<N extends CallName>(
  page: Page,
  name: N,
  args: ArgsOf<Calls[N]>,
): Promise<AnswerOf<Calls[N]>> {
  const answer = await askApp(page, name, args);
  if (!answer.ok) throw new Error(`${name}: ${answer.trouble.what}`);
  return answer.value;
}
