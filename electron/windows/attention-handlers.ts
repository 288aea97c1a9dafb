import type { attentionCalls } from '../../core/contract/attention-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { Attention } from '../attention/attention.ts';
import type { ReadoutWindow } from './readout-window.ts';

/** The calls about what calls a person's attention, and the readout window. */
export function attentionHandlers(parts: {
  readonly attention: Attention;
  readonly readout: ReadoutWindow;
  /** What was chosen has changed. */
  chosen(): void;
}): Handlers<typeof attentionCalls> {
  const { attention, readout } = parts;
  return {
    attention: () => attention.settings,
    setAttention: (settings) => {
      const kept = attention.set(settings);
      parts.chosen();
      return kept;
    },
    readout: ({ show }) => {
      if (show === true) readout.show();
      if (show === false) readout.hide();
      return { isShown: show ?? readout.isShown };
    },
  };
}
