import { sayCase } from './case-code.ts';
import type { PartSpec } from './part-spec.ts';
import { sayFigure, sayPartValue } from './say-part-value.ts';
import { sayTolerance } from './tolerance-letters.ts';

export type FigureId = 'value' | 'tolerance' | 'rating' | 'class' | 'esr' | 'case';

/** One figure of a part: what the line says of it, or null where it says nothing. */
export interface PartFigure {
  readonly id: FigureId;
  readonly label: string;
  readonly said: string | null;
}

/** What a part's line says, figure by figure; an ESR and a class are asked of capacitors alone. */
export function partFigures(spec: PartSpec): readonly PartFigure[] {
  const { kind, value, tolerance, ratedV, ratedA, ratedW, technology, dielectric, esrOhm } = spec;
  const ratings = [
    ratedV === null ? null : sayFigure(ratedV, 'V'),
    ratedA === null ? null : sayFigure(ratedA, 'A'),
    ratedW === null ? null : sayFigure(ratedW, 'W'),
  ].filter((said) => said !== null);
  const own: readonly PartFigure[] = [
    {
      id: 'value',
      label: 'Value',
      said: value === null || kind === null ? spec.marking : sayPartValue(value, kind),
    },
    {
      id: 'tolerance',
      label: 'Tolerance',
      said: tolerance === null ? null : sayTolerance(tolerance),
    },
    { id: 'rating', label: 'Rating', said: ratings.length === 0 ? null : ratings.join(', ') },
    { id: 'class', label: 'Class or make', said: dielectric ?? technology },
    { id: 'esr', label: 'ESR', said: esrOhm === null ? null : sayFigure(esrOhm, 'Ω') },
    {
      id: 'case',
      label: 'Case',
      said: spec.chipCase === null ? spec.otherCase : sayCase(spec.chipCase),
    },
  ];
  return kind === null || kind === 'capacitor'
    ? own
    : own.filter(({ id }) => id !== 'class' && id !== 'esr');
}

/**
 * A part's line with one more figure typed behind it, the unit of that field put to a bare number:
 * `20` as a tolerance is `20%`, `25` as a rating `25V`, `9m` as an ESR `ESR 9m`.
 */
export function withFigure(line: string, id: FigureId, typed: string): string {
  const text = typed.trim();
  if (text === '') return line;
  const isBare = /^\d*[.,]?\d+$/.test(text);
  const word = { tolerance: `${text}%`, rating: `${text}V`, esr: `${text}ohm` }[id as 'esr'];
  const full = isBare && word !== undefined ? word : text;
  return `${line.trim()} ${id === 'esr' ? `ESR ${full}` : full}`.trim();
}
