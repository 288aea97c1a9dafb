import { timesMinor } from './money.ts';

/** A line of what a job costs its customer. */
export interface Charge {
  readonly id: string;
  readonly kind: 'part' | 'time' | 'other';
  readonly words: string;
  /** The part of the job that it is for; null = none. */
  readonly partId: string | null;
  /** Thousandths of a piece; 0 for time. */
  readonly quantityMilli: number;
  /** 0 but for time. */
  readonly minutes: number;
  /** Minor units of one piece, or of an hour. */
  readonly unitMinor: number;
  readonly currency: string;
  readonly addedAt: number;
}

/** What a line comes to, in minor units: each line is rounded by itself, so that a column adds up. */
export function chargeMinor(
  charge: Pick<Charge, 'kind' | 'quantityMilli' | 'minutes' | 'unitMinor'>,
): number {
  return charge.kind === 'time'
    ? timesMinor(charge.minutes, charge.unitMinor, 60)
    : timesMinor(charge.quantityMilli, charge.unitMinor, 1000);
}

/** A sum in one currency. */
export interface Total {
  readonly currency: string;
  readonly minor: number;
  readonly partsMinor: number;
  readonly timeMinor: number;
  readonly minutes: number;
}

/** Sums by currency, in the order that they first come: amounts in two currencies are never added. */
export function totalsOf(charges: readonly Charge[]): readonly Total[] {
  const totals = new Map<string, Total>();
  for (const charge of charges) {
    const { currency } = charge;
    const before = totals.get(currency) ?? {
      currency,
      minor: 0,
      partsMinor: 0,
      timeMinor: 0,
      minutes: 0,
    };
    const minor = chargeMinor(charge);
    const isTime = charge.kind === 'time';
    totals.set(currency, {
      currency,
      minor: before.minor + minor,
      partsMinor: before.partsMinor + (isTime ? 0 : minor),
      timeMinor: before.timeMinor + (isTime ? minor : 0),
      minutes: before.minutes + charge.minutes,
    });
  }
  return [...totals.values()];
}
