import type { JobRecord } from '../../core/record/record-content.ts';
import { CausesTable } from './causes-table.tsx';
import { ChecklistTable } from './checklist-table.tsx';
import { CustomerPart } from './customer-part.tsx';
import { Facts } from './facts.tsx';
import { HuntPart } from './hunt-part.tsx';
import { PartsTable } from './parts-table.tsx';
import { PicturesPart } from './pictures-part.tsx';
import { RailsPart } from './rails-part.tsx';
import { ReadingsTable } from './readings-table.tsx';
import { RunPart } from './run-part.tsx';
import { StageGlyph } from './stage-glyph.tsx';

/** A job record laid out for paper. All text goes in as text: nothing in a record is markup. */
export function RecordPage({ record }: { readonly record: JobRecord }) {
  return (
    <main>
      <CustomerPart record={record} />
      <header className="head next">
        <p className="kind">
          {record.title} <span dir="auto">{record.board}</span>
        </p>
        <h1>For the next repairer</h1>
        <p className="quiet">All times are the shop's.</p>
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
      {record.readings.rows.length > 0 && (
        <section>
          <h2>Readings</h2>
          <ReadingsTable readings={record.readings} />
        </section>
      )}
      <HuntPart hunts={record.hunts} />
      {record.parts.length > 0 && (
        <section>
          <h2>Parts</h2>
          <PartsTable rows={record.parts} />
          <Notes lines={record.partNotes} />
        </section>
      )}
      <PicturesPart groups={record.pictures} />
      {record.evidence.length > 0 && (
        <section>
          <h2>What earlier boards said</h2>
          <Notes lines={record.evidence} />
          <CausesTable rows={record.causes} />
        </section>
      )}
      {record.soak.length > 0 && (
        <section className="whole">
          <h2>Soak</h2>
          <Notes lines={record.soak} />
        </section>
      )}
      {record.checklist.length > 0 && (
        <section>
          <h2>Checklist</h2>
          <ChecklistTable phases={record.checklist} />
        </section>
      )}
      {record.cautions.length > 0 && (
        <section>
          <h2>Cautions that were shown</h2>
          <p className="quiet">
            They hold for whoever works on this board next. Local codes and licensed practice come
            first.
          </p>
          <ol className="cautions">
            {record.cautions.map((caution) => (
              <li key={caution} dir="auto">
                {caution}
              </li>
            ))}
          </ol>
        </section>
      )}
    </main>
  );
}

function Notes({ lines }: { readonly lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <ul className="notes">
      {lines.map((line) => (
        <li key={line} dir="auto">
          {line}
        </li>
      ))}
    </ul>
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
