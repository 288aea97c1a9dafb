import { useState } from 'react';
import type { FigureMark, PictureFigure } from '../../core/record/record-content.ts';

/** The same shapes as on screen: a ring with ticks for a hot spot, a cross for a point. */
const SHAPES: Readonly<Record<FigureMark['kind'], string>> = {
  'hot-spot': 'M15 8a7 7 0 1 1 0 14a7 7 0 1 1 0-14M15 1v6M15 23v6M1 15h6M23 15h6',
  point: 'M15 3v9M15 18v9M3 15h9M18 15h9',
};

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
              <svg viewBox="0 0 30 30" aria-hidden="true">
                <path className="mark-ground" d={SHAPES[mark.kind]} />
                <path className="mark-ink" d={SHAPES[mark.kind]} />
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
