import type { BinnedPicture } from '../../core/contract/picture-calls.ts';
import { describePicture } from '../../core/pictures/describe-picture.ts';
import { PICTURE_KIND_WORDS } from '../../core/pictures/picture.ts';
import { PictureImage } from './picture-image.tsx';

interface Props {
  readonly lines: readonly BinnedPicture[];
  readonly onRestore: (pictureId: string) => void;
}

/** Pictures that were binned by themselves, each with its job. */
export function BinnedPictures({ lines, onRestore }: Props) {
  if (lines.length === 0) return null;
  return (
    <ol aria-label="Pictures in the bin">
      {lines.map(({ picture, jobNumber }) => (
        <li key={picture.id} className="bin-line">
          <span className="binned-picture">
            <PictureImage picture={picture} size="small" alt={describePicture(picture)} />
          </span>
          <span>{PICTURE_KIND_WORDS[picture.kind]} picture</span>
          <span className="quiet">
            {jobNumber === null ? picture.boardModel : `job ${jobNumber}`} {picture.caption}
          </span>
          <button type="button" className="plain" onClick={() => onRestore(picture.id)}>
            Take back
          </button>
        </li>
      ))}
    </ol>
  );
}
