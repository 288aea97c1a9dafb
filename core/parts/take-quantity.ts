import { implyKind, type PartDraft, place, setField } from './part-draft.ts';
import type { PartQuantity } from './part-quantity.ts';
import type { PartToken } from './part-token.ts';
import { sayFigure } from './say-part-value.ts';
import { percentTolerance } from './tolerance-letters.ts';

/** Puts a quantity with a unit where it belongs: a value or a rating, by unit and kind. */
export function takeQuantity(
  quantity: PartQuantity,
  doubt: string | null,
  span: PartToken,
  draft: PartDraft,
): void {
  const { unit } = quantity;
  // MF on old marks is microfarads; nobody makes a part of megafarads (common practice, no source).
  const value = unit === 'F' && quantity.value >= 1 ? quantity.value * 1e-12 : quantity.value;
  const { kind } = draft.spec;
  if (unit === '%') {
    setField(draft, 'tolerance', percentTolerance(value), span, `±${value} %`);
    return;
  }
  const said = sayFigure(value, unit);
  if (doubt !== null) {
    draft.questions.push({
      ...place(span),
      about: 'value',
      ask: `What is ${span.text}? ${doubt[0]?.toUpperCase()}${doubt.slice(1)}.`,
      choices: ['u', 'm'].map((prefix) => {
        const retype = span.text.replace(/[mM](?=[a-zΩ]+$)/i, prefix);
        return { say: retype, retype };
      }),
      source: 'SI Brochure, prefixes; what exists is common practice, no source',
    });
  }
  if (doubt !== null && unit !== 'F') return;
  if (value === 0 && unit !== 'Ω') {
    draft.faults.push({
      ...place(span),
      what: `${said} is no value of a part`,
      todo: 'Take it out or type what is known.',
    });
    return;
  }
  switch (unit) {
    case 'V':
      if (kind === 'chip') {
        draft.notes.push({ ...place(span), meaning: said });
        return;
      }
      if (kind === 'zener' || kind === 'suppressor' || kind === 'varistor') {
        setField(draft, 'value', value, span, said);
      } else {
        setField(draft, 'ratedV', value, span, `rated ${said}`);
      }
      return;
    case 'A':
      if (kind === 'fuse') setField(draft, 'value', value, span, said);
      else setField(draft, 'ratedA', value, span, `rated ${said}`);
      return;
    case 'W':
      setField(draft, 'ratedW', value, span, `rated ${said}`);
      return;
    case 'Ω':
      if (takeSeriesOhms(value, said, span, draft)) return;
      if (kind !== 'bead' && kind !== 'thermistor') implyKind(draft, 'resistor', span, said);
      setField(draft, 'value', value, span, said);
      return;
    case 'F':
      if (kind === 'crystal') {
        draft.notes.push({ ...place(span), meaning: `load ${said}` });
        return;
      }
      implyKind(draft, 'capacitor', span, said);
      if (span.text.startsWith('±')) {
        const tolerance = { low: -value, high: value, in: 'farads' as const };
        setField(draft, 'tolerance', tolerance, span, `±${said}`);
        return;
      }
      setField(draft, 'value', value, span, said);
      return;
    case 'H':
      implyKind(draft, 'inductor', span, said);
      setField(draft, 'value', value, span, said);
      return;
    case 'Hz':
      if (kind === 'bead') {
        draft.notes.push({ ...place(span), meaning: `impedance given at ${said}` });
        return;
      }
      implyKind(draft, 'crystal', span, said);
      setField(draft, 'value', value, span, said);
  }
}

/** Ohms of a part whose value is something else: a capacitor's ESR, a coil's or switch's resistance. */
function takeSeriesOhms(ohms: number, said: string, span: PartToken, draft: PartDraft): boolean {
  const { kind, value } = draft.spec;
  const isOfDesignator = draft.places.designator !== undefined;
  if (kind === 'capacitor' && !isOfDesignator) {
    setField(draft, 'esrOhm', ohms, span, `ESR ${said}`);
    return true;
  }
  const isSeries =
    (kind === 'inductor' && ohms < 100) ||
    (kind === 'bead' && value !== null && ohms < value) ||
    kind === 'transistor' ||
    kind === 'fuse' ||
    kind === 'crystal';
  if (!isSeries) return false;
  draft.notes.push({ ...place(span), meaning: `resistance ${said}` });
  return true;
}
