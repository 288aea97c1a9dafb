import type { PictureMark } from '../../core/pictures/picture.ts';
import { MarkLine } from './mark-line.tsx';

interface Props {
  readonly marks: readonly PictureMark[];
  readonly chosenId: string | null;
  readonly onChoose: (id: string) => void;
  readonly onKeep: (marks: readonly PictureMark[]) => void;
}

/** The marks of a picture as lines: kind, name, temperature. */
export function MarkLines({ marks, chosenId, onChoose, onKeep }: Props) {
  return (
    <section className="mark-lines" aria-label="Marks">
      <h3>Marks</h3>
      {marks.length === 0 && (
        <p className="quiet">
          None. Press on the picture where it is hot, or where you touched it.
        </p>
      )}
      <ol>
        {marks.map((mark, at) => (
          <MarkLine
            key={mark.id}
            mark={mark}
            number={at + 1}
            isChosen={mark.id === chosenId}
            onChoose={() => onChoose(mark.id)}
            onKeep={(kept) => onKeep(marks.map((one) => (one.id === kept.id ? kept : one)))}
            onRemove={() => onKeep(marks.filter(({ id }) => id !== mark.id))}
          />
        ))}
      </ol>
    </section>
  );
}
