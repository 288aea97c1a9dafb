import { useState } from 'react';
import { readPartValue } from '../../core/donors/spec-of-part.ts';
import { type FigureId, partFigures, withFigure } from '../../core/parts/part-figures.ts';

interface Props {
  readonly part: { readonly kind: string; readonly designator: string; readonly value: string };
  readonly onRetype: (value: string) => void;
}

/** The part's figures one by one: what the line says, and a field for each that it does not. */
export function PartFigures({ part, onRetype }: Props) {
  const [typed, setTyped] = useState<Partial<Record<FigureId, string>>>({});
  // The value itself is what the line begins with: it has a field already.
  const figures = partFigures(readPartValue(part).spec).filter(
    ({ id, said }) => id !== 'value' || said !== null,
  );
  const keep = (id: FigureId): void => {
    const text = typed[id] ?? '';
    if (text.trim() === '') return;
    setTyped({ ...typed, [id]: '' });
    onRetype(withFigure(part.value, id, text));
  };
  return (
    <fieldset className="part-figures">
      <legend>Its figures; what is typed here goes into the line</legend>
      {figures.map(({ id, label, said }) =>
        said === null ? (
          <label key={id} className="field">
            {label}
            <input
              className="field-input"
              maxLength={60}
              value={typed[id] ?? ''}
              onChange={(event) => setTyped({ ...typed, [id]: event.target.value })}
              onBlur={() => keep(id)}
              onKeyDown={(event) => {
                if (event.key !== 'Enter') return;
                event.preventDefault();
                keep(id);
              }}
            />
          </label>
        ) : (
          <p key={id}>
            <span className="quiet">{label}</span> {said}
          </p>
        ),
      )}
    </fieldset>
  );
}
