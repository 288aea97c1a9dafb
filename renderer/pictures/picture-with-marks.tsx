import { type KeyboardEvent, type MouseEvent, useId, useState } from 'react';
import { describePicture } from '../../core/pictures/describe-picture.ts';
import type { Picture, PictureMark } from '../../core/pictures/picture.ts';
import { useSize } from '../parts/use-size.ts';
import { aimedBy, type Place, placeAt } from './aim.ts';
import { PictureImage } from './picture-image.tsx';
import { PlacedMark } from './placed-mark.tsx';
import { zoomedBy } from './zoom.ts';
import './pictures.css';

interface Props {
  readonly picture: Picture;
  /** Left out = the picture's own; a view may show marks of its own instead. */
  readonly marks?: readonly PictureMark[];
  readonly chosenId?: string | null;
  readonly onChoose?: (markId: string) => void;
  /** Left out where nothing can be placed. */
  readonly onPlace?: (at: Place) => void;
  /** Left out where marks stay where they are. */
  readonly onMove?: (markId: string, to: Place) => void;
}

const MIDDLE: Place = { x: 0.5, y: 0.5 };

/**
 * A picture with named marks on it. A press places, a drag moves; with keys the arrows aim (finer
 * with Shift) and Enter places, and on a mark the arrows move it. + and − zoom, 0 fits.
 */
export function PictureWithMarks(props: Props) {
  const { picture, marks = picture.marks, chosenId = null, onChoose, onPlace, onMove } = props;
  const hint = useId();
  const [view, room] = useSize<HTMLElement>();
  const [zoom, setZoom] = useState(1);
  const [aim, setAim] = useState<Place>(MIDDLE);
  const fit = Math.min(room.width, (room.height * picture.width) / picture.height);
  const width = Math.max(0, fit * zoom);

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const to = zoomedBy(zoom, event.key);
    if (to === null) return;
    event.preventDefault();
    setZoom(to);
  };
  const onAim = (event: KeyboardEvent): void => {
    const to = aimedBy(aim, event);
    if (to === null) return;
    event.preventDefault();
    setAim(to);
  };
  const onPress = (event: MouseEvent<HTMLButtonElement>): void => {
    const sheet = event.currentTarget.getBoundingClientRect();
    const pointed = placeAt(
      (event.clientX - sheet.left) / sheet.width,
      (event.clientY - sheet.top) / sheet.height,
    );
    // A press by key has no place of its own: it goes where the cross stands.
    const at = event.detail === 0 ? aim : pointed;
    setAim(at);
    onPlace?.(at);
  };
  return (
    <div className="marked-picture">
      <section
        ref={view}
        className="marked-view"
        aria-label="Picture"
        aria-describedby={hint}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls and zooms by keys
        tabIndex={0}
        onKeyDown={onKeyDown}
      >
        <div
          className="marked-sheet"
          style={{ width, height: (width * picture.height) / picture.width }}
        >
          <PictureImage
            picture={picture}
            size={width * devicePixelRatio > 1600 ? 'full' : 'sheet'}
            alt={describePicture({ ...picture, marks })}
          />
          {onPlace !== undefined && (
            <button
              type="button"
              className="place-mark"
              aria-label="Place a mark: arrows aim, Enter places"
              onClick={onPress}
              onKeyDown={onAim}
            >
              <span
                className="aim-cross"
                style={{ left: `${aim.x * 100}%`, top: `${aim.y * 100}%` }}
              />
            </button>
          )}
          {marks.map((mark) => (
            <PlacedMark
              key={mark.id}
              mark={mark}
              marks={marks}
              isChosen={mark.id === chosenId}
              onChoose={() => onChoose?.(mark.id)}
              onMove={onMove === undefined ? undefined : (to) => onMove(mark.id, to)}
            />
          ))}
        </div>
      </section>
      <p className="marked-keys">
        <button
          type="button"
          className="plain"
          onClick={() => setZoom(zoomedBy(zoom, '-') ?? zoom)}
        >
          <span aria-hidden="true">−</span>
          <span className="heard-only">Zoom out</span>
        </button>
        <button
          type="button"
          className="plain"
          onClick={() => setZoom(zoomedBy(zoom, '+') ?? zoom)}
        >
          <span aria-hidden="true">+</span>
          <span className="heard-only">Zoom in</span>
        </button>
        <button type="button" className="plain" onClick={() => setZoom(1)}>
          Fit
        </button>
        <span className="quiet" id={hint}>
          + and − zoom, 0 fits{onPlace === undefined ? '.' : '; a press or Enter places a mark.'}
        </span>
      </p>
    </div>
  );
}
