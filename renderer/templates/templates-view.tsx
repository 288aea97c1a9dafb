import { useEffect, useState } from 'react';
import { templates as builtIn } from '../../core/checklist/template.ts';
import { ORIGIN_WORDS, type TemplateVersion } from '../../core/checklist/template-version.ts';
import { useActions } from '../state/use-desk.ts';
import { type EditedTemplate, editVersion, isChanged } from './edited-template.ts';
import { TemplateEditor } from './template-editor.tsx';
import './templates.css';

/** The shop's checklists by kind of job: on one side the kinds, on the other the steps of one. */
export function TemplatesView() {
  const { ask, say, show } = useActions();
  const [versions, setVersions] = useState<readonly TemplateVersion[] | null>(null);
  const [edited, setEdited] = useState<EditedTemplate | null>(null);
  const read = async (open: string | null): Promise<void> => {
    const found = await ask('listTemplates', {});
    if (found === null) return setVersions([]);
    setVersions(found);
    const first = found.find(({ key }) => key === open) ?? found[0];
    if (first !== undefined) setEdited(editVersion(first));
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: read once, then after each kept version
  useEffect(() => {
    void read(null);
  }, []);
  const version = versions?.find(({ key }) => key === edited?.key) ?? null;
  const isDirty = edited !== null && (version === null || isChanged(edited, version));
  const choose = (one: TemplateVersion): void => {
    if (!isDirty) setEdited(editVersion(one));
    else say('What was changed is not kept yet. Keep it, or drop it.');
  };
  const openFile = async (): Promise<void> => {
    const found = await ask('openTemplateFile', {});
    if (found === null) return;
    const known = versions?.some(({ key }) => key === found.key) === true;
    setEdited({
      key: known ? found.key : null,
      title: found.title,
      steps: found.steps,
      at: 0,
      isFromFile: true,
      understood: [],
    });
  };
  return (
    <main className="templates">
      <nav className="template-lines" aria-label="Kinds of job">
        <h2>Checklists</h2>
        {versions === null && <p className="quiet">Reading the checklists…</p>}
        {versions?.length === 0 && (
          <p className="quiet">The checklists could not be read. Open this page again.</p>
        )}
        <ul>
          {versions?.map((one) => (
            <li key={one.key}>
              <button
                type="button"
                className="donor-line"
                aria-current={one.key === edited?.key}
                aria-disabled={isDirty && one.key !== edited?.key}
                onClick={() => choose(one)}
              >
                <span>{one.title}</span>
                <span className="quiet">
                  {one.steps.length} steps, version {one.version}, {ORIGIN_WORDS[one.origin]}
                  {one.lost.length > 0 && `, guards ${one.lost.length} less`}
                </span>
              </button>
            </li>
          ))}
        </ul>
        {isDirty && (
          <button type="button" className="plain" onClick={() => void read(version?.key ?? null)}>
            Drop what was changed
          </button>
        )}
        <button type="button" className="plain" disabled={isDirty} onClick={() => void openFile()}>
          Read a checklist file
        </button>
        <button type="button" className="plain" onClick={() => show('jobs')}>
          Back to the job book
        </button>
      </nav>
      {edited !== null && (
        <TemplateEditor
          version={version}
          edited={edited}
          isBuiltInKind={builtIn.some(({ key }) => key === edited.key)}
          onEdit={setEdited}
          onKept={(key) => void read(key)}
        />
      )}
    </main>
  );
}
