import { readPartValue } from '../../core/donors/spec-of-part.ts';

interface Props {
  readonly part: { readonly kind: string; readonly designator: string; readonly value: string };
  /** The value typed another way, to settle a question. */
  readonly onRetype: (value: string) => void;
}

/** What was understood of a part's value, what was not and where, and what may mean two things. */
export function PartReading({ part, onRetype }: Props) {
  if (part.value.trim() === '') return null;
  const { notes, questions, faults } = readPartValue(part);
  const { value } = part;
  return (
    <output className="part-reading" aria-label="How the value was read">
      {notes.length > 0 && (
        <p className="quiet">Read as {notes.map(({ meaning }) => meaning).join(', ')}.</p>
      )}
      {faults.map((fault) => (
        <p key={`${fault.at}-${fault.what}`} className="part-fault">
          <span className="part-typed">
            {value.slice(0, fault.at)}
            <mark>{value.slice(fault.at, Math.max(fault.end, fault.at + 1)) || '_'}</mark>
            {value.slice(Math.max(fault.end, fault.at + 1))}
          </span>
          {fault.what}, at character {fault.at + 1}. {fault.todo}
        </p>
      ))}
      {questions.map((question) => (
        <div key={`${question.at}-${question.ask}`} className="part-question">
          <p>{question.ask}</p>
          {question.choices.map(({ say, retype }) => (
            <button
              key={say}
              type="button"
              className="plain"
              onClick={() =>
                onRetype(value.slice(0, question.at) + retype + value.slice(question.end))
              }
            >
              {say}
            </button>
          ))}
        </div>
      ))}
    </output>
  );
}
