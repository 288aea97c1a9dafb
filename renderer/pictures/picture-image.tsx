import { useState } from 'react';
import type { Trouble } from '../../core/errors.ts';
import type { Picture, PictureSize } from '../../core/pictures/picture.ts';
import { useActions } from '../state/use-desk.ts';
import { pictureUrl } from './picture-url.ts';

interface Props {
  readonly picture: Pick<Picture, 'id' | 'hash' | 'width' | 'height'>;
  readonly size: PictureSize;
  readonly alt: string;
}

/** The picture; where its file is lost or was changed, what happened and what to do. */
export function PictureImage({ picture, size, alt }: Props) {
  const { tryAsk } = useActions();
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  if (trouble !== null) {
    return (
      <span className="picture-lost" role="img" aria-label={`${alt} ${trouble.what}.`}>
        <strong>{trouble.what}</strong>
        <span>{trouble.todo}</span>
      </span>
    );
  }
  const look = async (): Promise<void> => {
    const answer = await tryAsk('readPictureState', { id: picture.id });
    setTrouble(
      answer.ok
        ? {
            code: 'bad-picture',
            what: 'The picture cannot be drawn',
            where: picture.id,
            todo: 'Open it again. If that does not help, add it again.',
          }
        : answer.trouble,
    );
  };
  return (
    <img
      src={pictureUrl(picture, size)}
      width={picture.width}
      height={picture.height}
      alt={alt}
      draggable={false}
      loading={size === 'small' ? 'lazy' : 'eager'}
      decoding="async"
      onError={() => void look()}
    />
  );
}
