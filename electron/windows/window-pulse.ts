/** What is asked of a window's contents. */
export interface PulseContents {
  isDestroyed(): boolean;
  isCrashed(): boolean;
  isLoading(): boolean;
  getOSProcessId(): number;
  executeJavaScript(code: string): Promise<unknown>;
}

export interface PulseParts {
  readonly contents: PulseContents;
  /** Whether a process of that id still lives. */
  isAlive(pid: number): boolean;
  nowMs(): number;
  /** Its process is gone, or it has stood still: called once, until `cameBack`. */
  gone(why: 'process gone' | 'stood still'): void;
}

/** Looks after a window whose death nobody may be told of. */
export interface WindowPulse {
  /** Looks once; called every `PULSE_MS`. */
  look(): void;
  /** The page is loaded: it counts as living from now. */
  cameBack(): void;
}

export const PULSE_MS = 1000;
/** Longer than any work of the page, also on a slow machine; shorter than a person would stare at it. */
const STILL_MS = 30_000;

/**
 * A window is dead when its process is, whether or not the system tells of it, and hung when its
 * page has not answered the least question for half a minute. A page that is still loading is let be.
 */
export function createWindowPulse(parts: PulseParts): WindowPulse {
  const { contents } = parts;
  let pid = 0;
  let isGone = false;
  let askedMs: number | null = null;
  let asked = 0;

  function tell(why: 'process gone' | 'stood still'): void {
    isGone = true;
    askedMs = null;
    parts.gone(why);
  }

  function ask(): void {
    askedMs = parts.nowMs();
    asked += 1;
    const mine = asked;
    const answered = () => {
      if (mine === asked) askedMs = null;
    };
    // A refusal is an answer too: what has died is seen by its process.
    contents.executeJavaScript('0').then(answered, answered);
  }

  return {
    look() {
      if (isGone || pid === 0 || contents.isDestroyed()) return;
      if (contents.isCrashed() || !parts.isAlive(pid)) return tell('process gone');
      if (contents.isLoading()) {
        askedMs = null;
        return;
      }
      if (askedMs === null) ask();
      else if (parts.nowMs() - askedMs > STILL_MS) tell('stood still');
    },
    cameBack() {
      pid = contents.getOSProcessId();
      isGone = false;
      askedMs = null;
      asked += 1;
    },
  };
}
