import { usePlotArea } from 'recharts';
import type { Mark } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { MARK_WORDS } from './mark-words.ts';
import type { TickRange } from './trace-view.ts';

/** Pixels that a flag's word is given at most; a closer neighbour keeps its line, not its word. */
const WORD_WIDTH = 150;
const LETTER_WIDTH = 7.2;

/** Marks as hairlines with a flag at the head; words where there is room. */
export function MarkFlags({ range, marks }: { range: TickRange; marks: readonly Mark[] }) {
  const area = usePlotArea();
  if (area === undefined) return null;
  const across = area.width / (range.toTick - range.fromTick);
  const inView = marks
    .map((mark) => ({
      mark,
      x: area.x + (mark.atS * TICKS_PER_SECOND - range.fromTick) * across,
    }))
    .filter(({ x }) => x >= area.x && x <= area.x + area.width)
    .sort((a, b) => a.x - b.x);

  let freeFrom = area.x;
  return (
    <g className="mark-flags">
      {inView.map(({ mark, x }, i) => {
        const next = inView[i + 1]?.x ?? area.x + area.width;
        const words = flagWords(mark, Math.min(WORD_WIDTH, next - x - 14));
        const isFree = x >= freeFrom && words !== '';
        if (isFree) freeFrom = x + words.length * LETTER_WIDTH;
        return (
          <g key={`${mark.mark}${mark.atS}${mark.text}`} className={`mark mark-${mark.mark}`}>
            <line x1={x} x2={x} y1={area.y - 12} y2={area.y + area.height} />
            <path d={`M${x} ${area.y - 22}h7l-3 5 3 5h-7z`} />
            {isFree && (
              <text x={x + 11} y={area.y - 12}>
                {words}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

function flagWords(mark: Mark, room: number): string {
  const letters = Math.floor(room / LETTER_WIDTH);
  const whole = mark.mark === 'note' && mark.text !== '' ? mark.text : MARK_WORDS[mark.mark];
  if (whole.length <= letters) return whole;
  return letters < 4 ? '' : `${whole.slice(0, letters - 1)}…`;
}
