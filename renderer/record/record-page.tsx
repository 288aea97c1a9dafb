import type { Fact, JobRecord } from '../../core/record/record-content.ts';
import { ChecklistTable } from './checklist-table.tsx';
import { RailsPart } from './rails-part.tsx';
import { PartsTable, ReadingsTable } from './record-tables.tsx';
import { RunPart } from './run-part.tsx';
import { StageGlyph } from './stage-glyph.tsx';

/** A job record laid out for paper. All text goes in as text: nothing in a record is markup. */
export function RecordPage({ record }: { readonly record: JobRecord }) {
  return (
    <main>
      <header className="head">
        <p className="kind">Job record</p>
        <h1>
          {record.title} <span dir="auto">{record.board}</span>
        </h1>
        <p className="quiet">
          {record.serial !== '' && (
            <>
              Serial number <bdi>{record.serial}</bdi>.{' '}
            </>
          )}
          Printed {record.printed}; all times are the shop's.
        </p>
      </header>
      {record.pretend !== null && <p className="pretend">{record.pretend}</p>}
      <section className="summary">
        <h2>In short</h2>
        <p dir="auto">{record.summary.join(' ')}</p>
      </section>
      {record.outcome.length > 0 && (
        <section>
          <h2>Outcome</h2>
          <Facts facts={record.outcome} oneColumn />
        </section>
      )}
      <section>
        <h2>What came in</h2>
        <Facts facts={record.facts} />
      </section>
      <Compared record={record} />
      <section>
        <h2>Runs</h2>
        {record.runs.length === 0 && <p>The board was not powered in this job.</p>}
        {record.runs.map((run) => (
          <RunPart key={run.title} run={run} />
        ))}
      </section>
      {record.stagesUsed.length > 0 && (
        <section className="meanings">
          <h2>What the stages mean</h2>
          <p className="quiet">
            A stage says what the draw did over a stretch of a run, never what is broken.
          </p>
          <dl>
            {record.stagesUsed.map((stage) => (
              <div key={stage.stage}>
                <dt>
                  <StageGlyph stage={stage.stage} /> {stage.words}
                </dt>
                <dd>{stage.meaning}</dd>
              </div>
            ))}
          </dl>
        </section>
      )}
      {record.rails !== null && <RailsPart rails={record.rails} />}
      <section>
        <h2>Readings</h2>
        <ReadingsTable rows={record.readings} />
      </section>
      <section>
        <h2>Parts</h2>
        <PartsTable rows={record.parts} />
        <Notes lines={record.partNotes} />
      </section>
      {record.evidence.length > 0 && (
        <section>
          <h2>What earlier boards said</h2>
          <Notes lines={record.evidence} />
        </section>
      )}
      <section>
        <h2>Checklist</h2>
        <ChecklistTable phases={record.checklist} />
      </section>
    </main>
  );
}

function Notes({ lines }: { readonly lines: readonly string[] }) {
  return lines.map((line) => (
    <p key={line} dir="auto">
      {line}
    </p>
  ));
}

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

function Compared({ record }: { readonly record: JobRecord }) {
  const { comparison } = record;
  if (comparison === null) return null;
  return (
    <section className="whole">
      <h2>Before and after</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Draw</th>
            <th scope="col">{comparison.beforeTitle}</th>
            <th scope="col">{comparison.afterTitle}</th>
          </tr>
        </thead>
        <tbody>
          {comparison.rows.map((row) => (
            <tr key={row.label}>
              <th scope="row">{row.label}</th>
              <td>{row.before}</td>
              <td>{row.after}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
