import type { ChecklistItem } from '../../core/job/job.ts';
import { formatReading } from '../../core/units/format-reading.ts';
import { timeWords } from '../parts/time-words.ts';
import { useItemActions } from './use-item-actions.ts';

interface Props {
  readonly item: ChecklistItem;
  readonly jobId: string;
  /** The run that this step asks for is on the trace now. */
  readonly isUnderWay: boolean;
  readonly onChoose: () => void;
}

/** A step that is not the next one: what became of it, or that it still waits. */
export function DoneItem({ item, jobId, isUnderWay, onChoose }: Props) {
  const { reopen } = useItemActions(jobId);
  const isOpen = item.state === 'open';
  return (
    <div className="item" data-state={item.state} data-gate={item.beforePower && isOpen}>
      <button
        type="button"
        className="item-line"
        onClick={() => (isOpen ? onChoose() : void reopen(item))}
      >
        <ItemSign state={item.state} />
        <span className="item-title">{item.title}</span>
        <span className="item-said" aria-hidden="true">
          {isUnderWay ? 'under way' : said(item)}
        </span>
        <span className="heard-only">
          , {isUnderWay ? 'under way' : stateWords(item)}.{' '}
          {isOpen ? 'Do this one next' : 'Open it again'}
        </span>
      </button>
    </div>
  );
}

/** An empty ring, a tick, or a stroke through. */
export function ItemSign({ state }: { state: ChecklistItem['state'] }) {
  return (
    <svg className="item-sign" viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
      {state === 'open' && <circle cx="10" cy="10" r="6.5" />}
      {state === 'done' && <path d="M4 10.5l4 4.5 8-10" />}
      {state === 'skipped' && <path d="M4 10h12M12 6l4 4-4 4" />}
    </svg>
  );
}

const HELD_WORDS: Readonly<Record<ChecklistItem['gate'], string>> = {
  nothing: '',
  closing: 'before closing',
  soak: 'before the soak',
  power: 'before power',
  ohms: 'before ohms',
};

function stateWords(item: ChecklistItem): string {
  if (item.state === 'open') return ['open', HELD_WORDS[item.gate]].filter(Boolean).join(', ');
  const by = item.doneBy === '' ? '' : ` by ${item.doneBy}`;
  return item.state === 'done' ? `done${by}` : `skipped${by}, ${item.reason}`;
}

function said(item: ChecklistItem): string {
  if (item.state === 'open') return HELD_WORDS[item.gate];
  const when = [item.at === null ? '' : timeWords(item.at), item.doneBy].filter(Boolean).join(' ');
  const what =
    item.state === 'skipped'
      ? `skipped: ${item.reason}`
      : item.readings.map(formatReading).join(', ') || item.reason;
  return [what, when].filter(Boolean).join(', ');
}
