import type { ProbeState } from '../../core/contract/probing-calls.ts';

/** Where the tip stands over the point: in the air, on it, taken, refused. Always beside its word. */
const SHAPES: Readonly<Record<ProbeState['phase'], string>> = {
  armed: 'M16 2v9l-2 4-2-4V2M5 25h18M14 19v0',
  settling: 'M16 6v9l-2 6-2-6V6M5 25h18M8 20l2 1M20 20l-2 1',
  checking: 'M16 6v9l-2 6-2-6V6M5 25h18M22 9v5M22 18v0',
  lift: 'M5 25h18M7 13l5 6 9-13',
  finished: 'M5 25h18M7 13l5 6 9-13',
  refused: 'M5 25h18M8 6l12 13M20 6L8 19',
};

export function ProbeSign({ phase }: { phase: ProbeState['phase'] }) {
  return (
    <svg className="probe-sign" viewBox="0 0 28 28" width="32" height="32" aria-hidden="true">
      <path d={SHAPES[phase]} />
    </svg>
  );
}
