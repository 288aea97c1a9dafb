import { type ReactNode, useState } from 'react';

interface Props {
  /** What the button says: "Export record". */
  readonly does: string;
  /** What is being written: "the record". */
  readonly what: string;
  /** Writes it; the words that say what was written, null when nothing was. */
  readonly write: () => Promise<string | null>;
  /** Choices before the button. */
  readonly children: ReactNode;
}

/** Writes a file when asked, one at a time, and says what it wrote. */
export function WriteFile({ does, what, write, children }: Props) {
  const [state, setState] = useState({ isBusy: false, words: '' });
  const begin = async (): Promise<void> => {
    setState({ isBusy: true, words: `Writing ${what}…` });
    const words = await write();
    setState({ isBusy: false, words: words === null ? '' : `Written: ${words}` });
  };
  return (
    <>
      {children}
      <button
        type="button"
        className="plain"
        aria-disabled={state.isBusy}
        onClick={() => {
          if (!state.isBusy) void begin();
        }}
      >
        {does}
      </button>
      <p role="status" className="export-words">
        {state.words}
      </p>
    </>
  );
}
