import { Fragment, memo, useState } from 'react';
import { nextItem } from '../../core/checklist/item-rules.ts';
import type { ChecklistItem, JobWhole } from '../../core/job/job.ts';
import { useDeskState } from '../state/use-desk.ts';
import { DoneItem } from './done-item.tsx';
import { FreeReading } from './free-reading.tsx';
import { Initials } from './initials.tsx';
import { JobName } from './job-name.tsx';
import { JobTemplateLine } from './job-template-line.tsx';
import { NextItem } from './next-item.tsx';
import { Phase } from './phase.tsx';
import { QuickPart } from './quick-part.tsx';

/** The job's steps by phase. The next one is opened and large; a gate line shows where power begins. */
export const Checklist = memo(function Checklist({ whole }: { whole: JobWhole }) {
  const { items, job } = whole;
  const [chosen, setChosen] = useState<string | null>(null);
  const isRunLive = useDeskState(
    ({ bench }) =>
      bench?.run?.kind === 'powered' && bench.run.endedAt === null && bench.run.jobId === job.id,
  );
  const next =
    items.find((item) => item.id === chosen && item.state === 'open') ?? nextItem(items, isRunLive);
  const settled = items.filter((item) => item.state !== 'open').length;
  const lastGate = items.findLastIndex((item) => item.beforePower);
  const openGates = items.filter((item) => item.beforePower && item.state === 'open').length;

  return (
    <section className="checklist" aria-label="Checklist">
      <JobName job={job} />
      <header className="checklist-head">
        <h2>Checklist</h2>
        <p className="quiet">
          {settled} of {items.length} settled
        </p>
        <Initials />
      </header>
      <JobTemplateLine job={job} />
      {next === null && (
        <p className="checklist-end">Every step is settled. Close the job in the job book.</p>
      )}
      {phasesOf(items).map(({ phase, items: inPhase }) => (
        <Fragment key={phase}>
          <Phase name={phase} items={inPhase} nextId={next?.id ?? null}>
            <ol>
              {inPhase.map((item) => (
                <li key={item.id}>
                  {item.id === next?.id ? (
                    <NextItem item={item} jobId={job.id} />
                  ) : (
                    <DoneItem
                      item={item}
                      jobId={job.id}
                      isUnderWay={isRunLive && item.needs === 'run' && item.state === 'open'}
                      onChoose={() => setChosen(item.id)}
                    />
                  )}
                </li>
              ))}
            </ol>
          </Phase>
          {inPhase.some((item) => item.id === items[lastGate]?.id) && <Gate open={openGates} />}
        </Fragment>
      ))}
      <QuickPart jobId={job.id} />
      <FreeReading jobId={job.id} hasKey={next?.needs !== 'reading'} />
    </section>
  );
});

function Gate({ open }: { open: number }) {
  return (
    <p className="gate" data-open={open > 0}>
      {open === 0
        ? 'Power may come on'
        : open === 1
          ? 'Power stays off: 1 step above is open'
          : `Power stays off: ${open} steps above are open`}
    </p>
  );
}

function phasesOf(items: readonly ChecklistItem[]) {
  const phases: { phase: string; items: ChecklistItem[] }[] = [];
  for (const item of items) {
    const last = phases.at(-1);
    if (last !== undefined && last.phase === item.phase) last.items.push(item);
    else phases.push({ phase: item.phase, items: [item] });
  }
  return phases;
}
