import type { RailReading } from './rail-reading.ts';

/** Leads of two-wire readings where nobody measured them, ohms (common practice, no source). */
const USUAL_LEADS_OHM = 0.2;
/** From here on leads change nothing that can be seen. */
const LEADS_MATTER_BELOW_OHM = 30;

/** Ohms without the leads that a two-wire reading has in it; never below 0. */
export function withoutLeads(
  ohms: number,
  { wires, leadOhm }: Pick<RailReading, 'wires' | 'leadOhm'>,
): number {
  if (wires === 4) return ohms;
  const leads = leadOhm ?? (ohms < LEADS_MATTER_BELOW_OHM ? USUAL_LEADS_OHM : 0);
  return Math.max(0, ohms - leads);
}
