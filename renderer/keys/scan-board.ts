import { createScanReader } from '../../core/tags/scan-reader.ts';
import { isTyping } from './key-board.ts';

/** A scan that came in, and the way to give the field back what it held before. */
export interface Scan {
  readonly code: string;
  readonly isInField: boolean;
  readonly restore: () => void;
}

let answerer: ((scan: Scan) => unknown) | null = null;

/** Lets `handler` answer scans while it is wanted. Returns the way to stop. */
export function answerScans(handler: (scan: Scan) => unknown): () => void {
  answerer = handler;
  return () => {
    if (answerer === handler) answerer = null;
  };
}

/**
 * Listens for scanned bag tags on the whole window, before any key does: start it before the keys.
 * Does nothing while nobody answers. Returns the way to stop.
 */
export function startScanBoard(): () => void {
  const read = createScanReader();
  let held: { field: HTMLInputElement | HTMLTextAreaElement; value: string } | null = null;
  const onKeyDown = (event: KeyboardEvent): void => {
    // An open dialog has its own business.
    if (answerer === null || document.querySelector('dialog[open]') !== null) return;
    const isInField = isTyping(event.target);
    const answer = read({
      key: event.key,
      atMs: event.timeStamp,
      isTyping: isInField,
      hasModifier: event.ctrlKey || event.altKey || event.metaKey,
    });
    const { target } = event;
    if (answer.begins) {
      held =
        target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement
          ? { field: target, value: target.value }
          : null;
    }
    if (answer.isTaken) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
    if (answer.scanned === null) return;
    const before = isInField ? held : null;
    held = null;
    answerer({
      code: answer.scanned,
      isInField,
      restore: () => before !== null && putBack(before.field, before.value),
    });
  };
  window.addEventListener('keydown', onKeyDown, { capture: true });
  return () => window.removeEventListener('keydown', onKeyDown, { capture: true });
}

/** Sets a field's value as if it had been typed, so that whoever draws it hears of it. */
function putBack(field: HTMLInputElement | HTMLTextAreaElement, value: string): void {
  const of =
    field instanceof HTMLInputElement ? HTMLInputElement.prototype : HTMLTextAreaElement.prototype;
  Object.getOwnPropertyDescriptor(of, 'value')?.set?.call(field, value);
  field.dispatchEvent(new Event('input', { bubbles: true }));
}
