import { useState } from 'react';
import { MARK_BOX, MARK_SHAPES } from '../../core/pictures/mark-shapes.ts';
import type { PictureFigure } from '../../core/record/record-content.ts';

/** A picture with its marks drawn over it, and below what it shows. */
export function PrintedPicture({
  figure,
  isBrief = false,
}: {
  readonly figure: PictureFigure;
  /** Only its head and caption below it. */
  readonly isBrief?: boolean;
}) {
  const [isLost, setLost] = useState(false);
  const { id, width, height, alt, marks } = figure;
  return (
    <figure className="picture">
      {isLost ? (
        <p className="picture-lost">
          This picture is not printed: its file is missing or was changed outside the app.
        </p>
      ) : (
        <div className="picture-ground">
          <img
            src={`/pictures/${id}/sheet`}
            alt={alt}
            width={width}
            height={height}
            onError={() => setLost(true)}
          />
          {marks.map((mark, at) => (
            <span
              // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
              key={at}
              className="mark"
              data-side={mark.x > 0.7 ? 'left' : 'right'}
              style={{ left: `${mark.x * 100}%`, top: `${mark.y * 100}%` }}
            >
              <svg viewBox={`0 0 ${MARK_BOX} ${MARK_BOX}`} aria-hidden="true">
                <path className="mark-ground" d={MARK_SHAPES[mark.kind]} />
                <path className="mark-ink" d={MARK_SHAPES[mark.kind]} />
              </svg>
              <span className="mark-tag">{mark.tag}</span>
            </span>
          ))}
        </div>
      )}
      <figcaption>
        <p>
          <strong dir="auto">{figure.head}</strong> <span className="quiet">{figure.at}</span>
        </p>
        {figure.caption !== '' && <p dir="auto">{figure.caption}</p>}
        {!isBrief && marks.length > 0 && (
          <ol className="mark-words">
            {marks.map((mark, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
              <li key={at} dir="auto">
                {mark.words}
              </li>
            ))}
          </ol>
        )}
        {!isBrief && figure.tied !== '' && (
          <p className="quiet" dir="auto">
            {figure.tied}
          </p>
        )}
      </figcaption>
    </figure>
  );
}
