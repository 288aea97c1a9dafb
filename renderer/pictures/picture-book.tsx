import { useState } from 'react';
import type { JobWhole } from '../../core/job/job.ts';
import { describePicture } from '../../core/pictures/describe-picture.ts';
import { PICTURE_KIND_WORDS, type Picture } from '../../core/pictures/picture.ts';
import { timeWords } from '../parts/time-words.ts';
import { AddPictures } from './add-pictures.tsx';
import { PictureDialog } from './picture-dialog.tsx';
import { PictureImage } from './picture-image.tsx';
import type { PictureOwner } from './use-add-pictures.ts';
import { usePictures } from './use-pictures.ts';

interface Props {
  readonly owner: PictureOwner;
  /** The job, for what a picture can be tied to; null for a board's pictures. */
  readonly whole: JobWhole | null;
  /** Said while there is none. */
  readonly none: string;
}

/** Pictures as thumbnails; one that was just added is opened, to be marked. */
export function PictureBook({ owner, whole, none }: Props) {
  const { pictures, read } = usePictures(owner);
  const [openId, setOpenId] = useState<string | null>(null);
  const open = pictures?.find(({ id }) => id === openId);
  const onAdded = async (alone: Picture | null): Promise<void> => {
    await read();
    if (alone !== null) setOpenId(alone.id);
  };
  return (
    <section className="picture-book" aria-label="Pictures" aria-busy={pictures === null}>
      <h2>Pictures</h2>
      <AddPictures owner={owner} onAdded={(alone) => void onAdded(alone)} />
      {pictures === null && <p className="quiet">Reading the pictures…</p>}
      {pictures?.length === 0 && <p className="quiet">{none}</p>}
      <ul className="picture-lines">
        {pictures?.map((picture) => (
          <li key={picture.id}>
            <button type="button" className="picture-line" onClick={() => setOpenId(picture.id)}>
              <span className="picture-small">
                <PictureImage picture={picture} size="small" alt={describePicture(picture)} />
              </span>
              <span className="picture-words">
                <strong>{PICTURE_KIND_WORDS[picture.kind]}</strong>{' '}
                <span className="quiet">{timeWords(picture.takenAt)}</span>
                {isOfPair(picture, pictures) && <span className="quiet">, one of a pair</span>}
              </span>
              <span className="picture-caption">{picture.caption}</span>
            </button>
          </li>
        ))}
      </ul>
      {open !== undefined && (
        <PictureDialog
          key={open.id}
          picture={open}
          pictures={pictures ?? []}
          whole={whole}
          onShow={setOpenId}
          onChanged={() => void read()}
          onClose={() => setOpenId(null)}
        />
      )}
    </section>
  );
}

function isOfPair(picture: Picture, all: readonly Picture[]): boolean {
  return picture.beforeId !== null || all.some(({ beforeId }) => beforeId === picture.id);
}
