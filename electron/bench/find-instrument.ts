import { type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';
import { openMeter } from '../../core/instruments/meter.ts';
import { FUNCTION_QUERIES } from '../../core/instruments/meter-dialects.ts';
import { functionReply } from '../../core/instruments/meter-shape.ts';
import { beginProbing, type Probe, prober } from '../../core/instruments/prober.ts';
import { openSupply } from '../../core/instruments/supply.ts';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import { booleanReply } from '../../core/scpi/response-shape.ts';
import { openSession, type Session } from '../../core/scpi/session.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import { USUAL_TIMING } from '../../core/scpi/session-timing.ts';
import type { TrafficListener } from '../../core/scpi/session-wire.ts';

/** Speeds that instruments come set to, the usual ones first. */
export const USUAL_BAUDS: readonly number[] = [9600, 115_200, 19_200, 38_400, 57_600, 4800];

/** What was found on one port. */
export interface FoundInstrument {
  readonly baud: number | null;
  readonly identity: string;
  readonly role: 'supply' | 'meter';
  readonly dialect: string;
  readonly canSwitch: boolean;
  /** Readings a second when asked without a pause. */
  readonly rateHz: number;
  /** A live reading in words: `5.000 V, 0.100 A`. */
  readonly reading: string;
}

export interface FindOptions {
  /** Opens the port at a speed; null = the way has none (TCP). */
  readonly open: (baud: number | null) => Promise<ByteLink>;
  readonly bauds: readonly number[] | null;
  readonly clock: Clock;
  readonly onTraffic?: TrafficListener | undefined;
}

/** Asking at a wrong speed is answered by nothing or garbage: not waited for long. */
const QUICK = {
  ...USUAL_TIMING,
  timeoutMs: { ...USUAL_TIMING.timeoutMs, identity: 600 },
  retries: 0,
};
/** Opening a port restarts some instruments: the first speed is given a moment longer. */
const FIRST = { ...QUICK, retries: 1 };
const RATE_READS = 8;
/** A slow meter's rate is known after this long. */
const RATE_MS = 3000;

/**
 * Looks who is on a port: at each speed asks who is there, then finds role, dialect, rate and a
 * live reading, with queries only. Throws the trouble of the most telling speed when nobody is.
 */
export async function findInstrument(options: FindOptions): Promise<FoundInstrument> {
  const troubles: Trouble[] = [];
  for (const [index, baud] of (options.bauds ?? [null]).entries()) {
    const link = await options.open(baud);
    const quick = openSession(link, options.clock, {
      timing: index === 0 ? FIRST : QUICK,
      onTraffic: options.onTraffic,
    });
    try {
      await quick.identify();
      return await meet(quick, baud);
    } catch (thrown) {
      const trouble = troubleOf(thrown, link.name);
      troubles.push(trouble);
      // It is there and speaks: another speed cannot do better.
      if (trouble.code === 'instrument-refused') break;
    } finally {
      await quick.close();
    }
  }
  const telling =
    troubles.find(({ code }) => code === 'instrument-refused') ??
    troubles.find(({ code }) => code !== 'no-answer') ??
    troubles[0];
  throw new WakelineError(
    telling ?? {
      code: 'bad-input',
      what: 'No speed was given to look at',
      where: 'finding instruments',
      todo: 'Choose at least one speed.',
    },
  );
}

async function meet(session: Session, baud: number | null): Promise<FoundInstrument> {
  const probeMs = await beginProbing(session);
  const probe = prober(session);
  const hasOutput = (await probe('OUTP?', booleanReply, probeMs)) !== null;
  // A multimeter is told by its function, before anything is measured that could change it.
  const isMeter = !hasOutput && (await tellsFunction(probe, probeMs));
  const { identity } = session;
  if (isMeter) {
    const meter = await openMeter(session);
    const { rateHz, last } = await timed(session, () => meter.read());
    const value = last.overload ? 'over range' : String(last.value);
    const reading = `${last.quantity}: ${value}`;
    return {
      baud,
      identity,
      role: 'meter',
      dialect: meter.dialect,
      canSwitch: false,
      rateHz,
      reading,
    };
  }
  const supply = await openSupply(session);
  const { rateHz, last } = await timed(session, () => supply.read());
  const volts = last.volts?.toFixed(supply.voltsDecimals) ?? '-';
  const amps = last.amps?.toFixed(supply.ampsDecimals) ?? '-';
  const { dialect, canSwitch } = supply;
  return {
    baud,
    identity,
    role: 'supply',
    dialect,
    canSwitch,
    rateHz,
    reading: `${volts} V, ${amps} A`,
  };
}

async function tellsFunction(probe: Probe, probeMs: number): Promise<boolean> {
  for (const ask of FUNCTION_QUERIES) {
    if ((await probe(ask, functionReply, probeMs)) !== null) return true;
  }
  return false;
}

async function timed<R>(session: Session, read: () => Promise<R>) {
  const startMs = session.clock.nowMs();
  let last = await read();
  let reads = 1;
  const elapsedMs = () => session.clock.nowMs() - startMs;
  for (; reads < RATE_READS && elapsedMs() < RATE_MS; reads += 1) last = await read();
  const rateHz = (reads * 1000) / Math.max(1e-3, elapsedMs());
  return { rateHz, last };
}
