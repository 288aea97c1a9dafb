import { ipcMain, type WebContents } from 'electron';
import {
  type CallName,
  type Calls,
  calls,
  type EventName,
  type Events,
  type Handlers,
} from '../../core/contract/contract.ts';
import { type Result, type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';
import { APP_ORIGIN } from '../windows/app-protocol.ts';

/** Says what is wrong with a call's arguments, by field. */
function badArguments(
  name: string,
  issues: readonly { path: PropertyKey[]; message: string }[],
): Trouble {
  const first = issues[0];
  const field = first?.path.map(String).join('.') || 'arguments';
  return {
    code: 'bad-input',
    what: `${field}: ${first?.message ?? 'not understood'}`,
    where: name,
    todo: 'Correct it and try again. Nothing was changed.',
  };
}

function refuse(name: string): Trouble {
  return {
    code: 'refused-sender',
    what: 'The call did not come from the app’s own window',
    where: name,
    todo: 'Close whatever opened that page.',
  };
}

/**
 * Puts the handlers behind the contract's calls. The only file that touches `ipcMain`: a handler
 * runs only for the app's own top frame and with arguments that passed the call's schema.
 */
export function registerCalls(
  handlers: Handlers<Calls>,
  isOurs: (contents: WebContents) => boolean,
): void {
  for (const name of Object.keys(calls) as CallName[]) {
    ipcMain.handle(`ask:${name}`, async (event, args: unknown): Promise<Result<unknown>> => {
      const frame = event.senderFrame;
      const own =
        isOurs(event.sender) &&
        frame !== null &&
        frame.parent === null &&
        frame.url.startsWith(`${APP_ORIGIN}/`);
      if (!own) return { ok: false, trouble: refuse(name) };
      const checked = calls[name].args.safeParse(args);
      if (!checked.success) {
        return { ok: false, trouble: badArguments(name, checked.error.issues) };
      }
      try {
        const handler = handlers[name] as (checked: unknown) => unknown;
        return { ok: true, value: await handler(checked.data) };
      } catch (thrown) {
        if (!(thrown instanceof WakelineError)) console.error(`${name} failed:`, thrown);
        return { ok: false, trouble: troubleOf(thrown, name) };
      }
    });
  }
}

/** Tells a window a past fact. */
export function tell<E extends EventName>(contents: WebContents, event: E, fact: Events[E]): void {
  if (!contents.isDestroyed() && !contents.isCrashed()) contents.send(`fact:${event}`, fact);
}
