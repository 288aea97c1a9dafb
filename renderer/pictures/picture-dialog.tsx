import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { JobWhole } from '../../core/job/job.ts';
import {
  PICTURE_KIND_WORDS,
  type Picture,
  type PictureFields,
  type PictureMark,
} from '../../core/pictures/picture.ts';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';
import type { Place } from './aim.ts';
import { MarkLines } from './mark-lines.tsx';
import { PictureFacts } from './picture-facts.tsx';
import { PictureWithMarks } from './picture-with-marks.tsx';

interface Props {
  readonly picture: Picture;
  readonly pictures: readonly Picture[];
  /** Null for a board's picture. */
  readonly whole: JobWhole | null;
  readonly onShow: (pictureId: string) => void;
  readonly onChanged: () => void;
  readonly onClose: () => void;
}

/** A picture at size with its marks and facts; what is changed is kept at once. */
export function PictureDialog({ picture, pictures, whole, onShow, onChanged, onClose }: Props) {
  const { ask } = useActions();
  const dialog = useRef<HTMLDialogElement | null>(null);
  const [marks, setMarks] = useState(picture.marks);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const [isBeside, setBeside] = useState(false);
  useEffect(() => dialog.current?.showModal(), []);

  const keepMarks = async (next: readonly PictureMark[]): Promise<void> => {
    setMarks(next);
    const kept = await ask('saveMarks', { id: picture.id, marks: [...next] });
    if (kept === null) setMarks(marks);
    else onChanged();
  };
  const keepFields = async (fields: PictureFields): Promise<void> => {
    if ((await ask('changePicture', { id: picture.id, fields })) !== null) onChanged();
  };
  const place = ({ x, y }: Place): void => {
    const id = crypto.randomUUID();
    const kind = picture.kind === 'thermal' ? 'hot-spot' : 'point';
    setChosenId(id);
    void keepMarks([...marks, { id, kind, name: '', x, y, temperatureC: null }]);
  };
  const move = (id: string, to: Place): void =>
    void keepMarks(marks.map((mark) => (mark.id === id ? { ...mark, ...to } : mark)));
  const bin = async (): Promise<void> => {
    if ((await ask('binPicture', { id: picture.id })) === null) return;
    onChanged();
    onClose();
  };
  const turn = (by: number): void => {
    const next = pictures[pictures.indexOf(picture) + by];
    if (next !== undefined) onShow(next.id);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'PageDown') turn(1);
    else if (event.key === 'PageUp') turn(-1);
    else return;
    event.preventDefault();
  };
  const pair = pictures.find(
    ({ id, beforeId }) => id === picture.beforeId || beforeId === picture.id,
  );
  const at = pictures.indexOf(picture) + 1;
  return (
    <dialog
      ref={dialog}
      className="picture-dialog"
      aria-label={`${PICTURE_KIND_WORDS[picture.kind]} picture`}
      onClose={onClose}
      onKeyDown={onKeyDown}
    >
      <div className="picture-stage" data-beside={isBeside && pair !== undefined}>
        <PictureWithMarks
          picture={picture}
          marks={marks}
          chosenId={chosenId}
          onChoose={setChosenId}
          onPlace={place}
          onMove={move}
        />
        {isBeside && pair !== undefined && <PictureWithMarks picture={pair} />}
      </div>
      <div className="picture-side">
        <header>
          <h2>
            {PICTURE_KIND_WORDS[picture.kind]} picture{' '}
            <span className="quiet">
              {at} of {pictures.length}
            </span>
          </h2>
          <p className="quiet">
            Taken {dayWords(picture.takenAt)}, {timeWords(picture.takenAt)}. {picture.width} ×{' '}
            {picture.height}. Place and camera notes are not kept.
          </p>
        </header>
        <PictureFacts
          picture={picture}
          pictures={pictures}
          whole={whole}
          onKeep={(fields) => void keepFields(fields)}
        />
        {pair !== undefined && (
          <button
            type="button"
            className="plain"
            aria-pressed={isBeside}
            onClick={() => setBeside(!isBeside)}
          >
            {picture.beforeId === null ? 'After beside it' : 'Before beside it'}
          </button>
        )}
        <MarkLines
          marks={marks}
          chosenId={chosenId}
          onChoose={setChosenId}
          onKeep={(next) => void keepMarks(next)}
        />
        <div className="form-keys">
          <button type="button" className="plain strong" onClick={() => dialog.current?.close()}>
            Close
          </button>
          <TwoPress words="Put in bin" sure="Press again to bin it" onSure={() => void bin()} />
        </div>
      </div>
    </dialog>
  );
}
