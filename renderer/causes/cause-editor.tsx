import { type FormEvent, useState } from 'react';
import { causeLines } from '../../core/cases/cause-tree.ts';
import type { Trouble } from '../../core/errors.ts';
import type { Cause } from '../../core/evidence/cause-table.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

interface Props {
  /** Null = a new one. */
  readonly cause: Cause | null;
  readonly under?: string;
  readonly causes: readonly Cause[];
  readonly onDone: () => void;
}

/** Words, place, weight and check of a cause. What is refused is told here and nothing is changed. */
export function CauseEditor({ cause, under, causes, onDone }: Props) {
  const { tryAsk } = useActions();
  const [text, setText] = useState(cause?.text ?? '');
  const [parent, setParent] = useState<string | null>(
    cause === null ? (under ?? null) : cause.parent,
  );
  const [check, setCheck] = useState(cause?.check ?? '');
  const [weight, setWeight] = useState(String(cause?.weight ?? 1));
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const answer = await tryAsk('saveCause', {
      key: cause?.key ?? null,
      text,
      parent,
      check,
      weight: Number(weight.replace(',', '.')),
    });
    if (answer.ok) onDone();
    else setTrouble(answer.trouble);
  };
  return (
    <form
      className="cause-editor"
      aria-label={cause === null ? 'A new cause' : `Change ${cause.text}`}
      noValidate
      onSubmit={(event) => void save(event)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onDone();
      }}
    >
      <label className="field cause-words">
        What it is
        <input
          className="field-input"
          // biome-ignore lint/a11y/noAutofocus: the form was just asked for
          autoFocus
          maxLength={200}
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
      </label>
      <Pick label="Under" value={parent ?? ''} onPick={(key) => setParent(key === '' ? null : key)}>
        <option value="">nothing, at the top</option>
        {causeLines(causes)
          .filter((line) => line.cause.key !== cause?.key)
          .map((line) => (
            <option key={line.cause.key} value={line.cause.key}>
              {'\u2003'.repeat(line.depth) + line.cause.text}
            </option>
          ))}
      </Pick>
      <label className="field">
        How usual, beside the others
        <input
          className="field-input"
          inputMode="decimal"
          value={weight}
          onChange={(event) => setWeight(event.target.value)}
        />
      </label>
      <label className="field cause-words">
        What tells whether it is there
        <input
          className="field-input"
          maxLength={400}
          value={check}
          onChange={(event) => setCheck(event.target.value)}
        />
      </label>
      {trouble !== null && (
        <p role="alert" className="form-wrong">
          {trouble.what}. {trouble.todo}
        </p>
      )}
      <div className="form-keys">
        <button type="submit" className="plain strong">
          Keep the cause
        </button>
        <button type="button" className="plain" onClick={onDone}>
          Leave it
        </button>
      </div>
    </form>
  );
}
