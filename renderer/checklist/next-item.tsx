import { type FormEvent, useEffect, useRef, useState } from 'react';
import { GATE_WORDS } from '../../core/checklist/gate.ts';
import { whyNotByHand } from '../../core/checklist/item-rules.ts';
import type { ChecklistItem } from '../../core/job/job.ts';
import { formatReading } from '../../core/units/format-reading.ts';
import { useKey } from '../keys/use-key.ts';
import { Caution } from '../parts/caution.tsx';
import { KeyCap } from '../parts/key-cap.tsx';
import { TiedPicture } from '../pictures/tied-picture.tsx';
import { SoakStep } from '../soak/soak-step.tsx';
import { useActions } from '../state/use-desk.ts';
import { ItemSign } from './done-item.tsx';
import { MeterReading } from './meter-reading.tsx';
import { TypedReadingForm } from './typed-reading-form.tsx';
import { useItemActions } from './use-item-actions.ts';

interface Props {
  readonly item: ChecklistItem;
  readonly jobId: string;
}

type Form = 'none' | 'typed' | 'skip';

/** The step to do now: what, with what caution, and its reading. */
export function NextItem({ item, jobId }: Props) {
  const { done, skip, takeFromMeter, addReading } = useItemActions(jobId);
  const { openJob, say } = useActions();
  const article = useRef<HTMLElement | null>(null);
  const [form, setForm] = useState<Form>('none');
  const [note, setNote] = useState('');
  const noteField = useRef<HTMLInputElement | null>(null);
  const wantsReading = item.needs === 'reading' && item.quantity !== null;
  const isNote = item.needs === 'note';

  const whyNot = whyNotByHand(item, note);
  const finish = (): void => {
    if (whyNot === null) void done(item, note.trim());
    else if (isNote) noteField.current?.focus();
    else say(`${whyNot}.`);
  };
  useEffect(() => {
    article.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  useKey('itemDone', finish);
  useKey('itemSkip', () => setForm('skip'));
  useKey('takeReading', () => void takeFromMeter(item), wantsReading);
  useKey('typeReading', () => setForm('typed'), wantsReading);

  return (
    <article
      ref={article}
      className="next-item"
      aria-label={`Next: ${item.title}`}
      data-gate={item.gate !== 'nothing'}
    >
      <p className="next-item-head">
        <ItemSign state="open" />
        <strong>{item.title}</strong>
      </p>
      {item.caution !== null && <Caution>{item.caution}</Caution>}
      {item.gate !== 'nothing' && (
        <p className="quiet">Until it is settled it holds back {GATE_WORDS[item.gate]}.</p>
      )}
      {item.readings.length > 0 && (
        <p className="quiet">So far: {item.readings.map(formatReading).join(', ')}</p>
      )}
      {wantsReading && form !== 'typed' && (
        <MeterReading item={item} onTake={() => void takeFromMeter(item)} />
      )}
      {item.step === 'soaked' && <SoakStep />}
      {item.reason !== '' && <p className="quiet">{item.reason}</p>}
      {form === 'typed' && item.quantity !== null && (
        <TypedReadingForm
          quantity={item.quantity}
          place={item.place}
          onCancel={() => setForm('none')}
          onSave={async (reading) => {
            if (await addReading(item, reading, 'typed')) setForm('none');
          }}
        />
      )}
      {isNote && (
        <input
          ref={noteField}
          className="field-input"
          aria-label={`Note: ${item.title}`}
          value={note}
          maxLength={4000}
          onChange={(event) => setNote(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') finish();
          }}
        />
      )}
      {form === 'skip' ? (
        <SkipForm onCancel={() => setForm('none')} onSkip={(reason) => void skip(item, reason)} />
      ) : (
        <div className="next-item-keys">
          {(whyNot === null || isNote) && (
            <button type="button" className="plain strong" onClick={finish}>
              {item.needs === 'caution' ? 'Read and heeded' : 'Done'} <KeyCap>D</KeyCap>
            </button>
          )}
          {item.needs === 'run' && <p className="next-item-why">{whyNot}.</p>}
          {wantsReading && (
            <button type="button" className="plain" onClick={() => setForm('typed')}>
              Type it <KeyCap>T</KeyCap>
            </button>
          )}
          {item.needs === 'photo' && (
            <TiedPicture
              jobId={jobId}
              kind="board"
              tie={{ itemId: item.id }}
              words="Add a picture"
              of={item.title}
              isStrong
            />
          )}
          {item.needs === 'part' && (
            <button type="button" className="plain strong" onClick={() => openJob(jobId)}>
              Parts of this job
            </button>
          )}
          <button type="button" className="plain" onClick={() => setForm('skip')}>
            Skip <KeyCap>S</KeyCap>
          </button>
        </div>
      )}
    </article>
  );
}

function SkipForm(props: { onCancel: () => void; onSkip: (reason: string) => void }) {
  const [reason, setReason] = useState('');
  const [isShort, setShort] = useState(false);
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    if (reason.trim().length < 3) setShort(true);
    else props.onSkip(reason.trim());
  };
  return (
    <form className="skip-form" onSubmit={onSubmit}>
      <label>
        Reason for skipping
        <input
          className="field-input"
          // biome-ignore lint/a11y/noAutofocus: opened by a key press, the next thing is to type
          autoFocus
          value={reason}
          maxLength={4000}
          aria-invalid={isShort}
          onChange={(event) => setReason(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Escape') props.onCancel();
          }}
        />
      </label>
      {isShort && <p role="alert">Say why in a few words.</p>}
      <button type="submit" className="plain strong">
        Skip it
      </button>
      <button type="button" className="plain" onClick={props.onCancel}>
        Keep it
      </button>
    </form>
  );
}
