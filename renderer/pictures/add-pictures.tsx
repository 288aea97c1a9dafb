import { useRef, useState } from 'react';
import { PICTURE_KIND_WORDS, PICTURE_KINDS, type Picture } from '../../core/pictures/picture.ts';
import { Pick } from '../parts/pick.tsx';
import { type PictureOwner, useAddPictures } from './use-add-pictures.ts';
import { useDroppedFiles } from './use-dropped-files.ts';
import './pictures.css';

interface Props {
  readonly owner: PictureOwner;
  /** `alone` is the picture that was added when it was the only file. */
  readonly onAdded: (alone: Picture | null) => void;
}

/** Pictures come from a file, dropped on the page, or pasted; what is refused is told by its name. */
export function AddPictures({ owner, onAdded }: Props) {
  const { under, refused, add, forgetRefused } = useAddPictures(owner);
  const field = useRef<HTMLInputElement | null>(null);
  const [kind, setKind] = useState<(typeof PICTURE_KINDS)[number]>('thermal');
  const take = async (files: readonly File[]): Promise<void> => {
    if (under !== null) return;
    const added = await add(files, kind);
    if (added.length > 0) onAdded(files.length === 1 ? added[0]! : null);
  };
  const isOver = useDroppedFiles((files) => void take(files));
  return (
    <div className="add-pictures" data-over={isOver}>
      <div className="add-keys">
        <Pick
          label="New pictures are"
          value={kind}
          onPick={(picked) => setKind(PICTURE_KINDS.find((one) => one === picked) ?? 'other')}
        >
          {PICTURE_KINDS.map((one) => (
            <option key={one} value={one}>
              {PICTURE_KIND_WORDS[one]}
            </option>
          ))}
        </Pick>
        <button
          type="button"
          className="plain"
          aria-disabled={under !== null}
          onClick={() => under === null && field.current?.click()}
        >
          Add pictures
        </button>
        <input
          ref={field}
          className="heard-only"
          type="file"
          tabIndex={-1}
          aria-label="Picture files"
          accept="image/jpeg,image/png,image/webp"
          multiple
          onChange={(event) => {
            const files = [...(event.target.files ?? [])];
            // The same file chosen again must be a change again.
            event.target.value = '';
            void take(files);
          }}
        />
        <span className="quiet">
          {isOver ? 'Let go to add them to this page.' : 'or drop them on this page, or paste.'}
        </span>
      </div>
      <p role="status">{under !== null && `Adding picture ${under.done + 1} of ${under.all}…`}</p>
      {refused.length > 0 && (
        <div role="alert" className="refused-pictures">
          <ul>
            {refused.map((trouble) => (
              <li key={trouble.where}>
                <strong>{trouble.where}</strong>: {trouble.what}. {trouble.todo}
              </li>
            ))}
          </ul>
          <button type="button" className="plain" onClick={forgetRefused}>
            Seen
          </button>
        </div>
      )}
    </div>
  );
}
