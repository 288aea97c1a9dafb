import { WakelineError } from '../errors.ts';
import { inChannel, type SupplyDialect } from './supply-dialect.ts';
import type { SupplySetter } from './supply-setter.ts';

/** Which of its own protections a supply took. False = it has none, or was not asked. */
export interface ProtectionSet {
  readonly overV: boolean;
  readonly overA: boolean;
}

/** A supply's own over-voltage and over-current trip levels in volts and amps; null = leave it. */
export interface ProtectionWanted {
  readonly overV: number | null;
  readonly overA: number | null;
}

/** Errors that mean "no such command" (SCPI-1999 vol. 2, 21.8.9: -100 to -199 are command errors). */
const NO_SUCH_COMMAND = /(^|\D)-1\d\d\b/;

/**
 * Sets a supply's own protection where it has it, and reads the level back. SCPI-1999 vol. 2 has
 * SOURce:VOLTage:PROTection[:LEVel] and :STATe, and the same under CURRent (the current level is
 * common practice). Only tried where an error queue tells a missing command from a refusal.
 */
export async function setOwnProtection(
  dialect: SupplyDialect,
  setter: SupplySetter,
  wanted: ProtectionWanted,
): Promise<ProtectionSet> {
  const one = async (set: string | null, unit: 'V' | 'A', value: number | null) => {
    if (set === null || value === null || !dialect.errorQueue) return false;
    if (!/(VOLT|CURR) \{value\}/.test(set)) return false;
    const level = set.replace(' {value}', ':PROT {value}');
    const ask = inChannel(level.replace(' {value},', '? ').replace(' {value}', '?'), dialect);
    try {
      await setter.setNumber({ set: level, ask, unit, max: null }, value);
    } catch (thrown) {
      if (isMissing(thrown)) return false;
      throw thrown;
    }
    try {
      await setter.send(set.replace(' {value}', ':PROT:STAT ON'));
    } catch (thrown) {
      // Supplies whose protection is always on have no such command.
      if (!isMissing(thrown)) throw thrown;
    }
    return true;
  };
  return {
    overV: await one(dialect.setVolts, 'V', wanted.overV),
    overA: await one(dialect.setAmps, 'A', wanted.overA),
  };
}

function isMissing(thrown: unknown): boolean {
  return (
    thrown instanceof WakelineError &&
    thrown.trouble.code === 'instrument-refused' &&
    NO_SUCH_COMMAND.test(thrown.trouble.what)
  );
}
