import type { ProbeState } from '../../core/contract/probing-calls.ts';

/** What the technician does now, in a few words. */
export function phaseWords(probe: ProbeState): string {
  switch (probe.phase) {
    case 'armed':
      return 'Touch the point';
    case 'settling':
      return 'Hold still';
    case 'checking':
      return 'Hold still: are volts left?';
    case 'refused':
      return 'No reading';
    case 'finished':
      return 'Every point is taken';
    case 'lift':
      return probe.taken.length === 0 ? 'Lift the probe to begin' : 'Taken: lift the probe';
  }
}
