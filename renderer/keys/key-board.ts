import { actionFor, type KeyAction } from './key-map.ts';

type Handler = () => void;

const handlers = new Map<KeyAction, Handler[]>();
const LETTERS = 'wakeline.letter-keys';

/** Lets `handler` answer an action while it is wanted; the newest one asked wins. */
export function answerKey(action: KeyAction, handler: Handler): () => void {
  const stack = handlers.get(action) ?? [];
  handlers.set(action, [...stack, handler]);
  return () => {
    handlers.set(
      action,
      (handlers.get(action) ?? []).filter((one) => one !== handler),
    );
  };
}

/** Listens on the whole window, before any field does. Returns the way to stop. */
export function startKeyBoard(): () => void {
  const onKeyDown = (event: KeyboardEvent): void => {
    const action = actionFor({
      key: event.key,
      isTyping: isTyping(event.target),
      hasModifier: event.ctrlKey || event.altKey || event.metaKey,
      lettersAreOn: areLettersOn(),
    });
    if (action === null) return;
    // An open dialog has its own business; only output off still goes through it.
    if (action !== 'outputOff' && document.querySelector('dialog[open]') !== null) return;
    const handler = handlers.get(action)?.at(-1);
    if (handler === undefined) return;
    event.preventDefault();
    // Holding a key must not mark a hundred times.
    if (!event.repeat) handler();
  };
  window.addEventListener('keydown', onKeyDown, { capture: true });
  return () => window.removeEventListener('keydown', onKeyDown, { capture: true });
}

/** Single-letter keys can be put off (WCAG 2.2, 2.1.4); function keys stay. */
export function areLettersOn(): boolean {
  return localStorage.getItem(LETTERS) !== 'off';
}

export function setLetters(on: boolean): void {
  localStorage.setItem(LETTERS, on ? 'on' : 'off');
}

/** Whether keys that go to this element are text. */
export function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) return true;
  if (!(target instanceof HTMLInputElement)) return target.isContentEditable;
  return !['button', 'checkbox', 'radio', 'range', 'submit'].includes(target.type);
}
