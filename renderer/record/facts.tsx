import type { Fact } from '../../core/record/record-content.ts';

/** Labelled lines of text; long ones wrap and may run over a page. */
export function Facts({
  facts,
  oneColumn = false,
}: {
  readonly facts: readonly Fact[];
  readonly oneColumn?: boolean;
}) {
  return (
    <dl className="facts">
      {facts.map((fact) => (
        <div key={fact.label} className={oneColumn || fact.text.length > 42 ? 'wide' : undefined}>
          <dt>{fact.label}</dt>
          <dd dir="auto">{fact.text}</dd>
        </div>
      ))}
    </dl>
  );
}
