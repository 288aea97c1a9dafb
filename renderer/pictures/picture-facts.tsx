import { useState } from 'react';
import type { JobWhole } from '../../core/job/job.ts';
import {
  PICTURE_KIND_WORDS,
  PICTURE_KINDS,
  type Picture,
  type PictureFields,
} from '../../core/pictures/picture.ts';
import { Pick } from '../parts/pick.tsx';
import { timeWords } from '../parts/time-words.ts';

interface Props {
  readonly picture: Picture;
  readonly pictures: readonly Picture[];
  /** Null for a board's picture, which hangs on no job. */
  readonly whole: JobWhole | null;
  readonly onKeep: (fields: PictureFields) => void;
}

/** What is told of a picture: each thing is kept as soon as it is left. */
export function PictureFacts({ picture, pictures, whole, onKeep }: Props) {
  const { kind, caption, takenAt, rail, partId, itemId, huntId, beforeId } = picture;
  const [text, setText] = useState({ caption, rail });
  const keep = (fields: Partial<PictureFields>): void =>
    onKeep({ kind, takenAt, partId, itemId, huntId, beforeId, ...text, ...fields });
  const keepText = (): void => {
    if (text.caption !== caption || text.rail !== rail) keep({});
  };
  const line = (name: 'caption' | 'rail', words: string, most: number) => (
    <label className="field">
      {words}
      <input
        className="field-input"
        value={text[name]}
        maxLength={most}
        onChange={(event) => setText({ ...text, [name]: event.target.value })}
        onBlur={keepText}
        onKeyDown={(event) => event.key === 'Enter' && keepText()}
      />
    </label>
  );
  const others = pictures.filter(({ id }) => id !== picture.id);
  return (
    <div className="picture-facts">
      <Pick
        label="Kind"
        value={kind}
        onPick={(picked) => keep({ kind: PICTURE_KINDS.find((one) => one === picked) ?? kind })}
      >
        {PICTURE_KINDS.map((one) => (
          <option key={one} value={one}>
            {PICTURE_KIND_WORDS[one]}
          </option>
        ))}
      </Pick>
      {line('caption', 'What it shows', 1000)}
      {line('rail', 'Rail', 200)}
      <Tie
        label="Part"
        value={partId}
        options={(whole?.parts ?? []).map(({ id, action, designator }) => [
          id,
          `${action === 'lifted' ? 'Lifted' : 'Fitted'} ${designator}`,
        ])}
        onPick={(to) => keep({ partId: to })}
      />
      <Tie
        label="Step"
        value={itemId}
        options={(whole?.items ?? []).map(({ id, title }) => [id, title])}
        onPick={(to) => keep({ itemId: to })}
      />
      <Tie
        label="The same before"
        value={beforeId}
        options={others.map((other) => [
          other.id,
          `${PICTURE_KIND_WORDS[other.kind]} ${timeWords(other.takenAt)} ${other.caption}`,
        ])}
        onPick={(to) => keep({ beforeId: to })}
      />
    </div>
  );
}

interface TieProps {
  readonly label: string;
  readonly value: string | null;
  readonly options: readonly (readonly [id: string, words: string])[];
  readonly onPick: (id: string | null) => void;
}

/** What a picture is tied to, or nothing. */
function Tie({ label, value, options, onPick }: TieProps) {
  if (options.length === 0) return null;
  return (
    <Pick label={label} value={value ?? ''} onPick={(id) => onPick(id === '' ? null : id)}>
      <option value="">none</option>
      {options.map(([id, words]) => (
        <option key={id} value={id}>
          {words}
        </option>
      ))}
    </Pick>
  );
}
