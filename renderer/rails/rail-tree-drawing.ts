import type { BoardModel, FeedThrough } from '../../core/rails/board-model.ts';
import type { RailPlace } from '../../core/rails/lay-out-rails.ts';

export const NODE_WIDTH = 148;
export const NODE_HEIGHT = 58;
const COLUMN_PITCH = NODE_WIDTH + 68;
const ROW_PITCH = NODE_HEIGHT + 14;
/** The rail's own stroke, down from the top of its node. */
export const STROKE_AT = 26;
const EDGE = 6;

export interface DrawnRail {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

/** A feed from one rail to another, with the sign of what lies between. */
export interface DrawnFeed {
  readonly key: string;
  readonly path: string;
  readonly through: FeedThrough;
  readonly signX: number;
  readonly signY: number;
}

export interface TreeDrawing {
  readonly width: number;
  readonly height: number;
  readonly rails: readonly DrawnRail[];
  readonly feeds: readonly DrawnFeed[];
  readonly enables: readonly { readonly key: string; readonly path: string }[];
}

/** Where every rail, feed and enable of a board is drawn, in px; inputs on the left. */
export function drawTree(board: BoardModel, places: readonly RailPlace[]): TreeDrawing {
  const at = new Map(
    places.map(({ rail, column, row }) => [
      rail,
      { name: rail, x: EDGE + column * COLUMN_PITCH, y: EDGE + row * ROW_PITCH },
    ]),
  );
  const feeds: DrawnFeed[] = [];
  const enables: { key: string; path: string }[] = [];
  for (const rail of board.rails) {
    const to = at.get(rail.name);
    if (to === undefined) continue;
    for (const [nth, name] of rail.fedBy.entries()) {
      const from = at.get(name);
      if (from === undefined) continue;
      const turn = to.x - 44 - nth * 6;
      const endY = to.y + STROKE_AT;
      const path = `M${from.x + NODE_WIDTH} ${from.y + STROKE_AT}H${turn}V${endY}H${to.x}`;
      const key = `${name}>${rail.name}`;
      feeds.push({ key, path, through: rail.through, signX: to.x - 18, signY: endY });
    }
    for (const name of rail.enabledBy) {
      const from = at.get(name);
      if (from === undefined || rail.fedBy.includes(name)) continue;
      const startX = from.x + NODE_WIDTH - 14;
      const isBelow = to.y >= from.y;
      const startY = from.y + (isBelow ? NODE_HEIGHT - 2 : 2);
      const endX = to.x + 8;
      const endY = to.y + (isBelow ? 4 : NODE_HEIGHT - 4);
      const bend = Math.max(24, Math.abs(endY - startY) / 2);
      const sign = isBelow ? 1 : -1;
      enables.push({
        key: `${name}:${rail.name}`,
        path: `M${startX} ${startY}C${startX} ${startY + sign * bend} ${endX} ${endY - sign * bend} ${endX} ${endY}`,
      });
    }
  }
  const rails = [...at.values()];
  return {
    width: Math.max(0, ...rails.map(({ x }) => x)) + NODE_WIDTH + EDGE,
    height: Math.max(0, ...rails.map(({ y }) => y)) + NODE_HEIGHT + EDGE,
    rails,
    feeds,
    enables,
  };
}

/** The sign of what lies between, about its own middle. */
export const THROUGH_SIGNS: Readonly<Record<FeedThrough, string>> = {
  converter: 'M-8-8H8V8H-8ZM-8 8L8-8',
  regulator: 'M-8-8L8 0L-8 8Z',
  switch: 'M-9 0h3L6-7M6 0h3M6-2v4',
  link: 'M-8-4H8V4H-8Z',
};
