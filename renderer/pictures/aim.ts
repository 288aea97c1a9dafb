/** A place on a picture as shares of its width and height. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

const STEP = 0.02;
const FINE_STEP = 0.002;

const WAYS: Readonly<Record<string, readonly [x: number, y: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

const within = (share: number) => Math.min(1, Math.max(0, Math.round(share * 1e4) / 1e4));

/** A place as whole as a person can mean it, on the picture. */
export function placeAt(x: number, y: number): Place {
  return { x: within(x), y: within(y) };
}

/** Where an arrow key takes a place, in fine steps while Shift is held; null for other keys. */
export function aimedBy(
  place: Place,
  press: { readonly key: string; readonly shiftKey: boolean },
): Place | null {
  const way = WAYS[press.key];
  if (way === undefined) return null;
  const step = press.shiftKey ? FINE_STEP : STEP;
  return placeAt(place.x + way[0] * step, place.y + way[1] * step);
}
