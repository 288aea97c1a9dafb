import { useRef } from 'react';
import type { Picture, PictureKind } from '../../core/pictures/picture.ts';
import { useActions } from '../state/use-desk.ts';
import { useAddPictures } from './use-add-pictures.ts';

interface Props {
  readonly jobId: string;
  readonly kind: PictureKind;
  /** What the picture belongs to: a step, or a part. */
  readonly tie: Partial<Pick<Picture, 'itemId' | 'partId'>>;
  readonly words: string;
  /** What it is of, heard and not seen. */
  readonly of: string;
  readonly isStrong?: boolean;
}

/** One press to choose a picture that belongs to a step or a part, kept at once with that tie. */
export function TiedPicture({ jobId, kind, tie, words, of, isStrong = false }: Props) {
  const { ask, say } = useActions();
  const { under, refused, add } = useAddPictures({ jobId });
  const field = useRef<HTMLInputElement | null>(null);
  const take = async (files: readonly File[]): Promise<void> => {
    const added = await add(files, kind, tie);
    for (const { id, boardModel: _, ...fields } of added) {
      // A picture that the job had already comes back as it was: it is tied now.
      const isTied = Object.entries(tie).every(
        ([name, value]) => fields[name as keyof typeof fields] === value,
      );
      if (!isTied) await ask('changePicture', { id, fields: { ...fields, ...tie } });
    }
    if (added.length > 0) say(`Picture kept: ${of}.`);
  };
  return (
    <>
      <button
        type="button"
        className={isStrong ? 'plain strong' : 'plain'}
        aria-disabled={under !== null}
        onClick={() => under === null && field.current?.click()}
      >
        {under === null ? words : 'Adding…'}
        <span className="heard-only"> of {of}</span>
      </button>
      <input
        ref={field}
        className="heard-only"
        type="file"
        tabIndex={-1}
        aria-label={`Picture file of ${of}`}
        accept="image/jpeg,image/png,image/webp"
        multiple
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          // The same file chosen again must be a change again.
          event.target.value = '';
          void take(files);
        }}
      />
      {refused.map((trouble) => (
        <p key={trouble.where} role="alert" className="form-wrong">
          {trouble.where}: {trouble.what}. {trouble.todo}
        </p>
      ))}
    </>
  );
}
