import { useState } from 'react';
import type { Run } from '../../core/job/job.ts';
import { useActions } from '../state/use-desk.ts';

const ROLES = [
  { role: 'before', words: 'Before repair' },
  { role: 'after', words: 'After repair' },
  { role: null, words: 'Neither' },
] as const;

/** The technician's word for a run: before repair, after repair, or neither. */
export function RoleChoice({ run }: { run: Run }) {
  const { ask } = useActions();
  const [role, setRole] = useState(run.role);
  const choose = async (wanted: Run['role']): Promise<void> => {
    const changed = await ask('changeRun', { id: run.id, role: wanted });
    if (changed !== null) setRole(changed.role);
  };
  return (
    <fieldset className="segments">
      <legend className="heard-only">This run was</legend>
      {ROLES.map((one) => (
        <button
          key={one.words}
          type="button"
          className="segment"
          aria-pressed={role === one.role}
          onClick={() => void choose(one.role)}
        >
          {one.words}
        </button>
      ))}
    </fieldset>
  );
}
