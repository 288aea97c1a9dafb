/** The part of the system that hears keys while other windows are in front. */
export interface SystemKeys {
  register(key: string, pressed: () => void): boolean;
  unregister(key: string): void;
}

export interface KeysAnywhereParts {
  readonly system: SystemKeys;
  isWanted(): boolean;
  /** Whether one of the app's own windows has the keyboard: then it hears its keys itself. */
  isInFront(): boolean;
  readonly keys: readonly (readonly [key: string, pressed: () => void])[];
}

/** Keys that work while another window, like the microscope's picture, is in front. */
export interface KeysAnywhere {
  /** Something of it changed: the setting, or which window is in front. */
  look(): void;
  close(): void;
}

/** Takes the keys from the system only while they are wanted and nothing of ours is in front. */
export function createKeysAnywhere(parts: KeysAnywhereParts): KeysAnywhere {
  let held: string[] = [];

  function letGo(): void {
    for (const key of held) parts.system.unregister(key);
    held = [];
  }

  return {
    look() {
      const isWanted = parts.isWanted() && !parts.isInFront();
      if (!isWanted) return letGo();
      if (held.length > 0) return;
      held = parts.keys
        .filter(([key, pressed]) => parts.system.register(key, pressed))
        .map(([key]) => key);
    },
    close: letGo,
  };
}
