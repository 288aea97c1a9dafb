import type { StageId } from '../../core/stages/stage.ts';
import { formatDuration } from '../../core/units/format-duration.ts';

/** What a technician does next in a stage. Common practice, no source. */
export function nextForStage(stage: StageId, periodS: number | null): string {
  switch (stage) {
    case 'off':
      return 'The draw is being read. Ask the board to wake and press W.';
    case 'no-draw':
      return 'Ask it to wake and press W. If nothing moves, check contact, polarity and the input fuse.';
    case 'flat-low':
      return 'Only what is always on draws. Ask the board to wake and press W.';
    case 'stepping':
      return 'Rails are coming up. Hands off, let it climb.';
    case 'stalled':
      return 'It rose and stopped. Measure the main rail before you judge.';
    case 'running':
      return 'It runs. Go on down the checklist.';
    case 'flat-high':
      return 'It draws more than it should. Look for heat with a camera, not a finger; keep it short.';
    case 'creeping':
      return 'The draw creeps. Watch for heat, and switch off if it goes on.';
    case 'limited':
      return 'The supply holds the current. Read the volts at the board: near zero is a short. Parts may be hot.';
    case 'cycling':
      return `It starts and gives up every ${formatDuration(periodS)}. Rule out a weak limit and thin leads first.`;
    case 'fell-back':
      return 'It climbed and fell. Replay the fall and find which rail went first.';
  }
}
