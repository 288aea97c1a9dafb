import { type RailVerdict, sayVerdict } from '../../core/rails/rail-reading.ts';

/** What each verdict looks like: where the rail lies against where it belongs. */
const SHAPES: Readonly<Record<RailVerdict, string>> = {
  present: 'M2 6H18M2 14h3M8.5 14h3M15 14h3',
  low: 'M2 6h5l4 8h7',
  high: 'M2 14h5l4-9h7',
  missing: 'M2 15h3M8.5 15h3M15 15h3',
  'back-fed': 'M18 10H3M8 5L3 10l5 5',
  shorted: 'M10 2v8M3 10H17M6 13.5h8M8.5 17h3',
  open: 'M2 10h5M13 10h5M7 7.5v5M13 7.5v5',
  'as-known-good': 'M2 7.5H18M2 12.5H18',
  'not-measured': 'M10 8.5a1.5 1.5 0 1 0 .01 0',
  'cannot-tell': 'M2 10q4-8 8 0t8 0',
};

const ODD_TINTS: Readonly<Record<RailVerdict, string>> = {
  present: 'running',
  low: 'stalled',
  high: 'flat-high',
  missing: 'fell-back',
  'back-fed': 'cycling',
  shorted: 'limited',
  open: 'flat-low',
  'as-known-good': 'running',
  'not-measured': '',
  'cannot-tell': 'off',
};

interface Props {
  readonly verdict: RailVerdict;
  /** False when the verdict is what belongs there. */
  readonly isOdd: boolean;
  /** The other rail of ohms between two; null or left out = against ground. */
  readonly against?: string | null;
}

/** Shape, word and tint of a verdict, always together. */
export function VerdictSign({ verdict, isOdd, against = null }: Props) {
  const tint = tintOf(verdict, isOdd);
  return (
    <span className={`verdict${tint === '' ? '' : ` tint-${tint}`}`} data-verdict={verdict}>
      <svg viewBox="0 0 20 20" width="18" height="18" aria-hidden="true">
        <path d={SHAPES[verdict]} />
      </svg>
      {sayVerdict(verdict, { isOdd, against })}
    </span>
  );
}

function tintOf(verdict: RailVerdict, isOdd: boolean): string {
  return verdict === 'missing' && !isOdd ? 'off' : ODD_TINTS[verdict];
}
