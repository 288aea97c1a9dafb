import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import { describeMark } from '../../core/pictures/describe-picture.ts';
import { formatTemperature } from '../../core/pictures/format-temperature.ts';
import type { PictureMark } from '../../core/pictures/picture.ts';
import { aimedBy, type Place, placeAt } from './aim.ts';
import { MarkSign } from './mark-sign.tsx';

interface Props {
  readonly mark: PictureMark;
  readonly marks: readonly PictureMark[];
  readonly isChosen: boolean;
  readonly onChoose: () => void;
  /** Left out where marks stay where they are. */
  readonly onMove?: ((to: Place) => void) | undefined;
}

/** A mark on the picture: chosen by a press, moved by dragging it or by arrow keys. */
export function PlacedMark({ mark, marks, isChosen, onChoose, onMove }: Props) {
  const dragged = useRef<DOMRect | null>(null);
  const [under, setUnder] = useState<Place | null>(null);
  const place = under ?? mark;
  const onPointerDown = (event: PointerEvent<HTMLButtonElement>): void => {
    if (onMove === undefined || event.button !== 0) return;
    dragged.current = event.currentTarget.parentElement?.getBoundingClientRect() ?? null;
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent): void => {
    const sheet = dragged.current;
    if (sheet === null) return;
    setUnder(
      placeAt(
        (event.clientX - sheet.left) / sheet.width,
        (event.clientY - sheet.top) / sheet.height,
      ),
    );
  };
  const onPointerUp = (): void => {
    if (under !== null) onMove?.(under);
    dragged.current = null;
    setUnder(null);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const to = onMove === undefined ? null : aimedBy(mark, event);
    if (to === null) return;
    event.preventDefault();
    onMove?.(to);
  };
  const number = marks.indexOf(mark) + 1;
  return (
    <button
      type="button"
      className="placed-mark"
      style={{ left: `${place.x * 100}%`, top: `${place.y * 100}%` }}
      aria-pressed={isChosen}
      aria-label={describeMark(marks, mark)}
      data-side={place.x > 0.75 ? 'left' : 'right'}
      onClick={onChoose}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={() => {
        dragged.current = null;
        setUnder(null);
      }}
      onKeyDown={onKeyDown}
    >
      <MarkSign kind={mark.kind} />
      <span className="mark-tag" aria-hidden="true">
        {mark.name === '' ? number : mark.name}
        {mark.temperatureC !== null && <strong>{formatTemperature(mark.temperatureC)}</strong>}
      </span>
    </button>
  );
}
