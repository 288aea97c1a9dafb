import { LEADS_TOGETHER } from '../../core/bench-model/leads-together.ts';
import type { ArgsOf } from '../../core/contract/call.ts';
import type { injectionCalls } from '../../core/contract/injection-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { InjectionPlan } from '../../core/shorts/injection.ts';
import { INJECTION_CAUTIONS } from '../../core/shorts/plan-injection.ts';
import { formatQuantity } from '../../core/units/format.ts';
import type { InjectionParts } from './injection-parts.ts';

type Admitted = Extract<InjectionPlan, { ok: true }>;

/** Amps at most where a supply does not tell its own (common practice, no source). */
const MOST_A = 8;
const MOST_V = 60;

/** What leads with their tips together are measured with: a volt would only warm them. */
const LEADS_PLAN: Admitted = {
  ok: true,
  startV: 0.5,
  ceilingV: 0.5,
  ceilingBecause: 'leads alone',
  steps: [{ limitA: 1, holdS: 10, expectedA: 1, boardW: 0, leadsW: null }],
  stepV: 0.05,
  guard: { mostV: 0.5, mostA: 1 },
  reasons: ['The tips are on each other, off the board: volts over amps are the leads.'],
  cautions: INJECTION_CAUTIONS.slice(0, 1),
};

/** Lets somebody into the mode, or throws with everything that is in the way. Sends nothing. */
export async function admitInjection(
  parts: InjectionParts,
  { huntId, purpose, leadsAt, cellsOff }: ArgsOf<(typeof injectionCalls)['enterInjection']>,
): Promise<{ readonly plan: Admitted; readonly rail: string }> {
  const supply = parts.supply();
  const { canSwitch, outputOn, maxV, maxA, identity } = supply.state;
  supply.driver();
  const jobId = parts.jobId();
  const hunts = jobId === null ? [] : await parts.ledger.listHunts({ jobId });
  const hunt = hunts.find((one) => one.hunt.id === huntId)?.hunt;
  if (hunt === undefined) {
    throw closed(
      'This hunt does not belong to the job on the bench',
      'injecting',
      'Put its job on the bench first.',
    );
  }
  const where = `injecting at ${hunt.rail}`;
  if (!canSwitch) {
    throw new WakelineError({
      code: 'cannot-switch',
      what: `${identity === '' ? 'This supply' : identity} can only be read: letting go of a key would not switch it off`,
      where,
      todo: 'Use a supply that can be switched, or inject by hand at its own front.',
    });
  }
  if (outputOn === true) {
    throw closed('The output is on', where, 'Switch it off (F9), then move the leads.');
  }
  const wanted = purpose === 'leads' ? LEADS_TOGETHER : hunt.rail;
  if (leadsAt.toLowerCase() !== wanted.toLowerCase()) {
    throw closed(
      `The leads are said to be at ${leadsAt === '' ? 'no place' : leadsAt}, not at ${wanted}`,
      where,
      'Move both leads, look twice, then say so.',
    );
  }
  if (purpose === 'leads') return { plan: LEADS_PLAN, rail: hunt.rail };
  const cellAttached = parts.feed().cells ? true : cellsOff ? false : null;
  const { plan } = await parts.ledger.planHunt({
    huntId,
    supply: { mostV: maxV ?? MOST_V, mostA: maxA ?? MOST_A },
    cellAttached,
  });
  if (plan.ok) {
    const { volts } = supply.state;
    if (volts === null || volts <= plan.ceilingV) return { plan, rail: hunt.rail };
    throw closed(
      `The supply’s terminals are still at ${formatQuantity(volts, 'V', null, { digits: 3 })}, above the ceiling of ${plan.ceilingV} V`,
      where,
      'Wait until supply and board are discharged, then move the leads.',
    );
  }
  const todo = [...new Set(plan.refusals.map((one) => one.todo))].join(' ');
  throw closed(
    plan.refusals.map(({ text }) => text.replace(/\.$/, '')).join('; '),
    where,
    `${todo} Nothing was sent.`,
  );
}

function closed(what: string, where: string, todo: string): WakelineError {
  return new WakelineError({ code: 'gate-closed', what, where, todo });
}
