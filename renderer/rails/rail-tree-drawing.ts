import type { BoardModel, FeedThrough } from '../../core/rails/board-model.ts';
import type { RailPlace } from '../../core/rails/lay-out-rails.ts';

export const NODE_WIDTH = 148;
export const NODE_HEIGHT = 58;
const COLUMN_PITCH = NODE_WIDTH + 68;
const ROW_PITCH = NODE_HEIGHT + 14;
/** The rail's own stroke, down from the top of its node. */
export const STROKE_AT = 26;
const EDGE = 6;
/** Room right of a column for the ways of enables. */
const ENABLE_ROOM = 30;

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

/** A dashed way from what enables to what is enabled. */
export interface DrawnEnable {
  readonly key: string;
  readonly from: string;
  readonly to: string;
  readonly path: string;
}

export interface TreeDrawing {
  readonly width: number;
  readonly height: number;
  readonly rails: readonly DrawnRail[];
  readonly feeds: readonly DrawnFeed[];
  readonly enables: readonly DrawnEnable[];
}

/** Where every rail, feed and enable of a board is drawn, in px; inputs on the left. */
export function drawTree(board: BoardModel, places: readonly RailPlace[]): TreeDrawing {
  const tallest = Math.max(0, ...places.map(({ row }) => row));
  const at = new Map(
    places.map(({ rail, column, row }) => {
      const last = Math.max(...places.map((one) => (one.column === column ? one.row : 0)));
      // Short columns stand in the middle of the tallest: feeds fan out both ways.
      const y = EDGE + (row + (tallest - last) / 2) * ROW_PITCH;
      return [rail, { name: rail, x: EDGE + column * COLUMN_PITCH, y }];
    }),
  );
  const feeds: DrawnFeed[] = [];
  const enables: DrawnEnable[] = [];
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
      const path = enablePath(from, to);
      enables.push({ key: `${name}:${rail.name}`, from: name, to: rail.name, path });
    }
  }
  const rails = [...at.values()];
  return {
    width: Math.max(0, ...rails.map(({ x }) => x)) + NODE_WIDTH + ENABLE_ROOM + EDGE,
    height: Math.max(0, ...rails.map(({ y }) => y)) + NODE_HEIGHT + EDGE,
    rails,
    feeds,
    enables,
  };
}

/** A dashed way beside the rails' own lines: out to the right within a column, else over the top. */
function enablePath(from: DrawnRail, to: DrawnRail): string {
  const startX = from.x + NODE_WIDTH + 2;
  const startY = from.y + STROKE_AT;
  if (from.x === to.x) {
    const endY = to.y + STROKE_AT;
    const bow = startX + Math.min(ENABLE_ROOM, 8 + Math.abs(endY - startY) / 6);
    return `M${startX} ${startY}C${bow} ${startY} ${bow} ${endY} ${startX} ${endY}`;
  }
  const endX = to.x + NODE_WIDTH - 30;
  const bend = to.x > from.x ? 40 : -40;
  return `M${startX} ${startY + 4}C${startX + bend} ${startY + 30} ${endX - bend} ${to.y - 10} ${endX} ${to.y + 2}`;
}

/** The sign of what lies between, about its own middle. */
export const THROUGH_SIGNS: Readonly<Record<FeedThrough, string>> = {
  converter: 'M-8-8H8V8H-8ZM-8 8L8-8',
  regulator: 'M-8-8L8 0L-8 8Z',
  switch: 'M-9 0h3L6-7M6 0h3M6-2v4',
  link: 'M-8-4H8V4H-8Z',
};
