import type { BagTag } from '../../core/tags/bag-tag.ts';
import { codeBars, QUIET } from './code-bars.ts';

const HEIGHT = 24;

/** A bag tag: the number for eyes, the bars for a scanner, the digits for both. */
export function TagPage({ tag }: { tag: BagTag }) {
  const { bars, modules } = codeBars(tag.code);
  return (
    <main className="tag">
      <header>
        <h1>{tag.title}</h1>
        <p className="tag-in">{tag.takenIn}</p>
      </header>
      <p className="tag-board">
        {tag.board}
        {tag.serial !== '' && <span> {tag.serial}</span>}
      </p>
      <ul>
        {tag.notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
      <svg
        className="tag-bars"
        viewBox={`0 0 ${modules + 2 * QUIET} ${HEIGHT}`}
        preserveAspectRatio="none"
        shapeRendering="crispEdges"
        role="img"
        aria-label={`Code ${tag.shownCode}`}
      >
        {bars.map(({ at, width }) => (
          <rect key={at} x={QUIET + at} y={0} width={width} height={HEIGHT} />
        ))}
      </svg>
      <p className="tag-code">{tag.shownCode}</p>
    </main>
  );
}
