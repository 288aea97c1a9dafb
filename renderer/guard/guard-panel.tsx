import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { GuardState } from '../../core/contract/guard-calls.ts';
import { GUARD_IS } from '../../core/guard/guard-limit.ts';
import type { GuardPolicy } from '../../core/guard/guard-settings.ts';
import { useActions } from '../state/use-desk.ts';
import {
  type GuardForm,
  type GuardRow,
  type GuardWrong,
  guardFormOf,
  isGuardWrong,
  limitsOfForm,
  READING_ROWS,
  type RowText,
  STAGE_ROWS,
} from './guard-form.ts';
import { GuardRowFields } from './guard-row.tsx';
import { OwnProtection } from './own-protection.tsx';
import './guard.css';

const POLICIES: readonly { readonly policy: GuardPolicy; readonly words: string }[] = [
  { policy: 'off', words: 'Switch the output off' },
  { policy: 'leave', words: 'Leave it as it is' },
];

/** Limits and what happens when the app dies, for a job or for every job without its own. */
export function GuardPanel({ jobId, onClose }: { jobId: string | null; onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement | null>(null);
  const { tryAsk, ask, say } = useActions();
  const [whose, setWhose] = useState(jobId);
  const [state, setState] = useState<GuardState | null>(null);
  const [form, setForm] = useState<GuardForm | null>(null);
  const [wrong, setWrong] = useState<GuardWrong | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  const take = (next: GuardState) => {
    setState(next);
    setForm(guardFormOf(next.settings));
    setWrong(null);
    setRefused(null);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked anew when whose limits changes.
  useEffect(() => {
    void tryAsk('guardState', { jobId: whose }).then((answer) => {
      if (answer.ok) take(answer.value);
      else setRefused(`${answer.trouble.what}. ${answer.trouble.todo}`);
    });
  }, [whose]);

  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (form === null) return;
    const read = limitsOfForm(form);
    if (isGuardWrong(read)) {
      setWrong(read);
      return;
    }
    const answer = await tryAsk('setGuardLimits', { jobId: whose, ...read });
    if (answer.ok) {
      take(answer.value);
      say('Limits are in force');
      dialog.current?.close();
    } else setRefused(`${answer.trouble.what}. ${answer.trouble.todo}`);
  };
  const setPolicy = async (policy: GuardPolicy): Promise<void> => {
    const next = await ask('setGuardPolicy', { jobId: whose, policy });
    if (next !== null) setState(next);
  };
  const drop = async (): Promise<void> => {
    if (whose === null) return;
    const next = await ask('dropGuard', { jobId: whose });
    if (next !== null) take(next);
  };
  const rows = (of: readonly GuardRow[]) =>
    of.map((row) => (
      <GuardRowFields
        key={row.on}
        row={row}
        text={form!.rows[row.on]}
        wrong={wrong?.at === row.on ? wrong.what : null}
        canSwitch={state?.canSwitch ?? false}
        onChange={(text: RowText) => {
          setWrong(null);
          setForm({ ...form!, rows: { ...form!.rows, [row.on]: text } });
        }}
      />
    ));

  return (
    <dialog ref={dialog} className="guard-panel" aria-label="Guard" onClose={onClose}>
      <form onSubmit={(event) => void save(event)} noValidate>
        <div className="part-head">
          <h2>Guard</h2>
          {jobId !== null && (
            <fieldset className="segments">
              <legend className="heard-only">Limits of</legend>
              {[jobId, null].map((one) => (
                <button
                  key={one ?? 'bench'}
                  type="button"
                  className="segment"
                  aria-pressed={whose === one}
                  onClick={() => setWhose(one)}
                >
                  {one === null ? 'Every other job' : 'This job'}
                </button>
              ))}
            </fieldset>
          )}
        </div>
        <p className="caution">{GUARD_IS}</p>
        {state !== null && !state.canSwitch && (
          <p className="form-wrong">
            This supply can only be read: a trip tells you, and you switch it off by hand.
          </p>
        )}
        {form === null || state === null ? (
          <p className="quiet">Reading the limits…</p>
        ) : (
          <>
            {!state.isOwn && (
              <p className="quiet">
                This job has no limits of its own: these are every job's. Save to give it its own.
              </p>
            )}
            <fieldset className="guard-rows">
              <legend>On each reading</legend>
              {rows(READING_ROWS)}
            </fieldset>
            <fieldset className="guard-rows">
              <legend>On what the draw does</legend>
              {rows(STAGE_ROWS)}
            </fieldset>
            <OwnProtection
              form={form}
              wrong={wrong}
              ownSet={state.ownSet}
              onChange={(part) => {
                setWrong(null);
                setForm({ ...form, ...part });
              }}
            />
            <fieldset className="segments">
              <legend>If this app dies or hangs</legend>
              {POLICIES.map(({ policy, words }) => (
                <button
                  key={policy}
                  type="button"
                  className="segment"
                  aria-pressed={state.settings.policy === policy}
                  onClick={() => void setPolicy(policy)}
                >
                  {words}
                </button>
              ))}
            </fieldset>
          </>
        )}
        {refused !== null && (
          <p className="form-wrong" role="alert">
            {refused}
          </p>
        )}
        <div className="form-keys">
          <button type="submit" className="plain strong" disabled={form === null}>
            Put in force
          </button>
          {whose !== null && state?.isOwn && (
            <button type="button" className="plain" onClick={() => void drop()}>
              Use every job's limits
            </button>
          )}
          <button type="button" className="plain" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </div>
      </form>
    </dialog>
  );
}
