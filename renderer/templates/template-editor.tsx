import { useEffect, useState } from 'react';
import { ORIGIN_WORDS, type TemplateVersion } from '../../core/checklist/template-version.ts';
import { dayWords } from '../parts/time-words.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';
import { copyForNewKind, type EditedTemplate, isChanged, judgeEdited } from './edited-template.ts';
import { LossList } from './loss-list.tsx';
import { StepList } from './step-list.tsx';

interface Props {
  /** Null = a new kind of job. */
  readonly version: TemplateVersion | null;
  readonly edited: EditedTemplate;
  readonly isBuiltInKind: boolean;
  readonly onEdit: (edited: EditedTemplate) => void;
  /** A version was kept, or the list has to be read again. */
  readonly onKept: (key: string) => void;
}

/** One kind of job's checklist: its steps, what is wrong with them, what it guards no longer. */
export function TemplateEditor({ version, edited, isBuiltInKind, onEdit, onKept }: Props) {
  const { ask, say } = useActions();
  const { faults, losses, unsaid } = judgeEdited(edited);
  const changed = isChanged(edited, version);
  const whyNot =
    faults.length > 0
      ? faults[0]!.what
      : unsaid.length > 0
        ? 'Say first that you understood what it guards no longer'
        : changed
          ? null
          : 'Nothing was changed';
  const keep = async (): Promise<void> => {
    if (whyNot !== null) return say(`${whyNot}.`);
    const { key, title, steps, understood, isFromFile } = edited;
    const kept = await ask('saveTemplate', {
      key,
      title,
      steps: [...steps],
      understood: [...understood],
      isFromFile,
    });
    if (kept === null) return;
    say(`Kept as version ${kept.version}. Open jobs stay with theirs.`);
    onKept(kept.key);
  };
  const restore = async (): Promise<void> => {
    const kept = edited.key === null ? null : await ask('restoreTemplate', { key: edited.key });
    if (kept !== null) onKept(kept.key);
  };
  const write = async (): Promise<void> => {
    const path = edited.key === null ? null : await ask('exportTemplate', { key: edited.key });
    if (path !== null) say(`Written: ${path}`);
  };
  const putAway = async (isAway: boolean): Promise<void> => {
    const kept =
      edited.key === null ? null : await ask('putTemplateAway', { key: edited.key, isAway });
    if (kept !== null) onKept(kept.key);
  };
  return (
    <section className="template-editor" aria-label={`Checklist: ${edited.title}`}>
      <header className="template-head">
        <label className="field">
          Kind of job
          <input
            className="field-input"
            maxLength={48}
            value={edited.title}
            onChange={(event) => onEdit({ ...edited, title: event.target.value })}
          />
        </label>
        <p className="quiet">
          {version === null || edited.key === null
            ? 'A new kind of job, not kept yet.'
            : `Version ${version.version}, ${ORIGIN_WORDS[version.origin]}${version.madeBy === '' ? '' : `, ${version.madeBy}`}, ${dayWords(version.madeAt)}.`}{' '}
          Jobs keep the version that they began with.
        </p>
      </header>
      <div className="template-keys">
        <div className="form-keys">
          <button
            type="button"
            className="plain strong"
            aria-disabled={whyNot !== null}
            onClick={() => void keep()}
          >
            Keep as a new version
          </button>
          {isBuiltInKind && edited.key !== null && (
            <TwoPress
              words="Return to the built-in one"
              sure="Press again to return"
              onSure={() => void restore()}
            />
          )}
          <button type="button" className="plain" onClick={() => onEdit(copyForNewKind(edited))}>
            Copy as a new kind
          </button>
          {edited.key !== null && (
            <button type="button" className="plain" onClick={() => void write()}>
              Write to a file
            </button>
          )}
          {edited.key !== null && !isBuiltInKind && version !== null && (
            <button
              type="button"
              className="plain"
              onClick={() => void putAway(version.origin !== 'away')}
            >
              {version.origin === 'away' ? 'Offer it again' : 'Put it away'}
            </button>
          )}
        </div>
        <p className="quiet" role="status">
          {whyNot === null ? 'Changed, not kept yet.' : `${whyNot}.`}
        </p>
      </div>
      {faults
        .filter(({ index }) => index === null)
        .map((fault) => (
          <p key={fault.what} role="alert" className="form-wrong">
            {fault.what}. {fault.todo}
          </p>
        ))}
      <LossList
        losses={losses}
        understood={edited.understood}
        onSay={(understood) => onEdit({ ...edited, understood })}
      />
      <StepList edited={edited} faults={faults} losses={losses} onEdit={onEdit} />
      {edited.key !== null && <OlderVersions keyOf={edited.key} edited={edited} onEdit={onEdit} />}
    </section>
  );
}

/** Every version that there was: one of them can be taken up again. */
function OlderVersions(props: {
  readonly keyOf: string;
  readonly edited: EditedTemplate;
  readonly onEdit: (edited: EditedTemplate) => void;
}) {
  const { keyOf, edited, onEdit } = props;
  const { ask } = useActions();
  const [versions, setVersions] = useState<readonly TemplateVersion[]>([]);
  useEffect(() => {
    void ask('templateHistory', { key: keyOf }).then((found) => setVersions(found ?? []));
  }, [keyOf, ask]);
  if (versions.length < 2) return null;
  return (
    <details className="older-versions">
      <summary>Older versions</summary>
      <ul>
        {versions.slice(1).map((one) => (
          <li key={one.id}>
            <span>
              Version {one.version}, {ORIGIN_WORDS[one.origin]}
              {one.madeBy !== '' && `, ${one.madeBy}`}, {dayWords(one.madeAt)}, {one.steps.length}{' '}
              steps
            </span>
            <button
              type="button"
              className="plain"
              onClick={() => onEdit({ ...edited, title: one.title, steps: one.steps, at: 0 })}
            >
              Take it up<span className="heard-only"> again, version {one.version}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
