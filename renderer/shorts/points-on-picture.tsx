import { useState } from 'react';
import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import { describePicture } from '../../core/pictures/describe-picture.ts';
import type { Picture, PictureMark } from '../../core/pictures/picture.ts';
import { Pick } from '../parts/pick.tsx';
import type { Place } from '../pictures/aim.ts';
import { PictureWithMarks } from '../pictures/picture-with-marks.tsx';
import { usePictures } from '../pictures/use-pictures.ts';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly whole: HuntWhole;
  readonly aimId: string | null;
  readonly onAim: (pointId: string) => void;
}

/** The hunt's points on a picture of the board: a press places the one that is aimed at. */
export function PointsOnPicture({ whole, aimId, onAim }: Props) {
  const { hunt } = whole;
  const { pictures } = usePictures({ jobId: hunt.jobId });
  const [chosen, setChosen] = useState<string | null>(null);
  const { ask } = useActions();
  const placed = hunt.points.find(({ onPicture }) => onPicture !== null)?.onPicture?.pictureId;
  const shown =
    pictures?.find(({ id }) => id === (chosen ?? placed)) ?? usualPicture(pictures ?? [], hunt.id);
  if (pictures === null || shown === null) return null;
  const marks: PictureMark[] = hunt.points.flatMap(({ id, name, onPicture }) =>
    onPicture === null || onPicture.pictureId !== shown.id
      ? []
      : [{ id, kind: 'point', name, x: onPicture.x, y: onPicture.y, temperatureC: null }],
  );
  const place = async (pointId: string | null, at: Place): Promise<void> => {
    const point = hunt.points.find(({ id }) => id === pointId);
    if (point === undefined) return;
    const { name, alongMm } = point;
    await ask('changeHuntPoint', {
      pointId: point.id,
      point: { name, alongMm, onPicture: { pictureId: shown.id, ...at } },
    });
  };
  return (
    <details className="points-on-picture">
      <summary>Points on a picture of the board</summary>
      {pictures.length > 1 && (
        <Pick label="Picture" value={shown.id} onPick={setChosen}>
          {pictures.map((picture) => (
            <option key={picture.id} value={picture.id}>
              {picture.caption === '' ? describePicture(picture) : picture.caption}
            </option>
          ))}
        </Pick>
      )}
      <div className="points-picture">
        <PictureWithMarks
          picture={shown}
          marks={marks}
          chosenId={aimId}
          onChoose={onAim}
          onPlace={(at) => void place(aimId, at)}
          onMove={(pointId, at) => void place(pointId, at)}
        />
      </div>
    </details>
  );
}

/** A picture of this hunt, else the newest of the job. */
function usualPicture(pictures: readonly Picture[], huntId: string): Picture | null {
  return pictures.findLast((picture) => picture.huntId === huntId) ?? pictures.at(-1) ?? null;
}
