import type { RunSection } from '../../core/record/record-content.ts';
import { Facts } from './facts.tsx';
import { RunFigure } from './run-figure.tsx';
import { StageGlyph } from './stage-glyph.tsx';

/** One run: its facts and plot kept together, then every stage with its reason, then its marks. */
export function RunPart({ run }: { readonly run: RunSection }) {
  return (
    <article className="run">
      <div className="whole">
        <h3>{run.title}</h3>
        {run.pretend && <p className="pretend-run">On the pretend bench.</p>}
        {run.plot === null ? (
          <p className="no-plot">No reading of the current was kept: there is nothing to draw.</p>
        ) : (
          <RunFigure plot={run.plot} sentence={run.sentence} />
        )}
      </div>
      <div className="whole">
        <Facts facts={run.facts} />
      </div>
      {run.stages.length > 0 && (
        <table>
          <colgroup>
            <col className="col-stage" />
            <col className="col-time" />
            <col className="col-time" />
            <col className="col-amount" />
            <col className="col-amount" />
            <col />
            <col className="col-amount" />
          </colgroup>
          <thead>
            <tr>
              <th scope="col">Stage</th>
              <th scope="col" className="number">
                From
              </th>
              <th scope="col" className="number">
                Lasted
              </th>
              <th scope="col" className="number">
                Amps
              </th>
              <th scope="col" className="number">
                Volts
              </th>
              <th scope="col">Why</th>
              <th scope="col" className="number">
                Confidence
              </th>
            </tr>
          </thead>
          <tbody>
            {run.stages.map((stage) => (
              <tr key={stage.number}>
                <th scope="row">
                  <span className="stage-number">{stage.number}</span>
                  <StageGlyph stage={stage.stage} /> {stage.words}
                </th>
                <td className="number">{stage.from}</td>
                <td className="number">{stage.lasted}</td>
                <td className="number">{stage.meanAmps}</td>
                <td className="number">{stage.meanVolts}</td>
                <td dir="auto">{stage.reason}</td>
                <td className="number">{stage.sure}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {run.marks.length > 0 && (
        <table>
          <colgroup>
            <col className="col-mark" />
            <col className="col-time" />
            <col />
          </colgroup>
          <thead>
            <tr>
              <th scope="col">Mark</th>
              <th scope="col" className="number">
                At
              </th>
              <th scope="col">What was seen or noted</th>
            </tr>
          </thead>
          <tbody>
            {run.marks.map((mark) => (
              <tr key={mark.letter}>
                <th scope="row">
                  <span className="stage-number">{mark.letter}</span> {mark.words}
                </th>
                <td className="number">{mark.at}</td>
                <td dir="auto">{mark.text}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </article>
  );
}
