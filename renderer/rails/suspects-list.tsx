import { useState } from 'react';
import type { RailWalk } from '../../core/rails/walk-rails.ts';

const SHOWN = 4;

/** What is suspected, with its probability as a number and a bar. */
export function SuspectsList({ walk, title = 'Suspects' }: { walk: RailWalk; title?: string }) {
  const [isAll, setAll] = useState(false);
  const { suspects, elsewhere, double, summary, contradictions } = walk;
  const lines = [
    ...suspects.map(({ text, probability }) => ({ text, probability })),
    { text: 'none of these rails', probability: elsewhere },
  ].sort((a, b) => b.probability - a.probability);
  const shown = isAll ? lines : lines.slice(0, SHOWN);
  return (
    <section className="suspects" aria-label={title}>
      <h2>{title}</h2>
      <p role="status">{summary}</p>
      {contradictions.map(({ text }) => (
        <p key={text} className="contradiction">
          <strong>Does not fit: </strong>
          {text}
        </p>
      ))}
      <ol>
        {shown.map(({ text, probability }) => (
          <li key={text} className="suspect">
            <span className="suspect-share number">{percent(probability)}</span>
            <span className="suspect-bar" aria-hidden="true">
              <span style={{ width: `${Math.max(1, probability * 100)}%` }} />
            </span>
            <span className="suspect-text">{text}</span>
          </li>
        ))}
      </ol>
      {lines.length > SHOWN && (
        <button type="button" className="in-text" onClick={() => setAll(!isAll)}>
          {isAll ? 'Fewer' : `${lines.length - SHOWN} more`}
        </button>
      )}
      {double >= 0.02 && <p className="quiet">Two faults at once: {percent(double)}.</p>}
      <p className="quiet suspects-source">
        From the rail tree by Bayes' rule; how often faults show what is common practice, no source.
      </p>
    </section>
  );
}

function percent(p: number): string {
  return p > 0 && p < 0.01 ? '< 1 %' : `${Math.round(p * 100)} %`;
}
