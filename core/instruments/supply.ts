import { WakelineError } from '../errors.ts';
import { ampsReply, booleanReply } from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';
import { type ProtectionSet, type ProtectionWanted, setOwnProtection } from './own-protection.ts';
import { probeSupply } from './probe-supply.ts';
import { inChannel, type SupplyDialect } from './supply-dialect.ts';
import { bothReply } from './supply-poll.ts';
import { supplyReader } from './supply-reader.ts';
import type { Setpoints, SupplyReading } from './supply-reading.ts';
import { supplySetter } from './supply-setter.ts';
import { type SwitchOff, switchOffOf } from './switch-off.ts';

export type { Setpoints, SupplyReading };

/** A bench supply, or an inline meter that can only be read (`canSwitch` false). */
export interface Supply {
  readonly identity: string;
  readonly canSwitch: boolean;
  /** Highest set-points that it tells; null = it does not tell. */
  readonly maxV: number | null;
  readonly maxA: number | null;
  /** Digits after the point that its readings have. */
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
  /** Key of the dialect it is spoken to in. */
  readonly dialect: string;
  /** The message that switches its output off, for the watcher; null when it cannot switch. */
  readonly offMessage: string | null;
  /** All that the watcher needs to switch it off by itself; null when it cannot switch. */
  readonly switchOff: SwitchOff | null;
  /** Measures volts and amps and asks regulation and output. Throws as `Session.query`. */
  read(): Promise<SupplyReading>;
  /** Sets volts. Throws `out-of-range` before a byte is sent, `instrument-refused` after. */
  setVolts(volts: number): Promise<void>;
  /** Sets the current limit in amps. Throws as `setVolts`. */
  setLimit(amps: number): Promise<void>;
  /** Asks the set-points. Null = it does not tell. */
  setpoints(): Promise<Setpoints>;
  /** Sets its own over-volts and over-amps trips where it has them. Throws as `setVolts`. */
  setOwnProtection(wanted: ProtectionWanted): Promise<ProtectionSet>;
  /** Switches on and reads back. Throws `instrument-refused` when it stays off. */
  outputOn(): Promise<void>;
  /** Switches off before all that waits, reads back, repeats until it is off. */
  outputOff(): Promise<void>;
}

export interface SupplyOptions {
  /** The dialect that this instrument was found to speak before. */
  readonly known?: SupplyDialect | undefined;
  /** Called with what was found, and again when more was learned: keep it for the next time. */
  readonly onDialect?: ((dialect: SupplyDialect) => void) | undefined;
}

const OFF_TRIES = 5;
const CAREFUL_PAUSE_MS = 100;
/** A relay or a soft start takes a moment until the output tells its new state: looked at so often. */
const STATE_LOOKS = 4;
const STATE_WAIT_MS = 150;
/** Somebody may turn the knobs of the supply itself: its set-points are asked this often. */
const SETPOINTS_EVERY_MS = 2000;

/** Finds out who answers and in which dialect, changing nothing, and gives it as a supply. */
export async function openSupply(session: Session, options: SupplyOptions = {}): Promise<Supply> {
  const probed = await probeSupply(session, options.known);
  const { dialect, maxV, maxA } = probed;
  session.canJoin = dialect.compound === 'full' || dialect.compound === 'bare';
  options.onDialect?.(dialect);
  const decimals = { volts: probed.voltsDecimals, amps: probed.ampsDecimals };
  const reader = supplyReader(session, dialect, decimals, (more) => options.onDialect?.(more));
  const setter = supplySetter(session, dialect);
  const off = dialect.outputOff === null ? null : inChannel(dialect.outputOff, dialect);
  const select =
    dialect.channel.form === 'select' && dialect.selectChannel !== null
      ? inChannel(dialect.selectChannel, dialect)
      : null;
  let set: Setpoints = { setV: probed.setV, limitA: probed.limitA };
  let askedMs = session.clock.nowMs();

  async function setpoints(): Promise<Setpoints> {
    set = await setter.setpoints();
    askedMs = session.clock.nowMs();
    return set;
  }

  /** Null = it cannot tell; the question asked instead shows at least that it listens. */
  async function askOutput(lane: 'usual' | 'urgent'): Promise<boolean | null> {
    if (dialect.askOutput === null) {
      const { measureBoth, measureAmps } = dialect;
      if (measureBoth !== null)
        await session.query(inChannel(measureBoth, dialect), bothReply, { lane });
      else if (measureAmps !== null)
        await session.query(inChannel(measureAmps, dialect), ampsReply, { lane });
      return null;
    }
    const message = inChannel(dialect.askOutput, dialect);
    return (await session.query(message, booleanReply, { lane })).value;
  }

  const waitForState = () =>
    new Promise<void>((resolve) => {
      session.clock.setTimer(resolve, STATE_WAIT_MS);
    });

  /** Whether its output stays off all the same; one that cannot tell is believed. */
  async function staysOff(): Promise<boolean> {
    for (let look = 1; ; look += 1) {
      if ((await askOutput('usual')) !== false) return false;
      if (look >= STATE_LOOKS) return true;
      await waitForState();
    }
  }

  const cannotSwitch = () =>
    new WakelineError({
      code: 'cannot-switch',
      what: 'It has no output that can be switched from here',
      where: session.name,
      todo: 'Switch the feed by hand.',
    });

  const staysSo = (what: string, todo: string) =>
    new WakelineError({ code: 'instrument-refused', what, where: session.name, todo });

  return {
    identity: session.identity,
    canSwitch: dialect.outputOn !== null && off !== null,
    maxV,
    maxA,
    get voltsDecimals() {
      return decimals.volts;
    },
    get ampsDecimals() {
      return decimals.amps;
    },
    dialect: dialect.key,
    offMessage: off,
    get switchOff() {
      return switchOffOf(session, dialect);
    },
    async read() {
      const { askSetVolts, askSetAmps, askApplied } = dialect;
      const canAsk = (askSetVolts ?? askSetAmps ?? askApplied) !== null;
      if (canAsk && session.clock.nowMs() - askedMs >= SETPOINTS_EVERY_MS) await setpoints();
      return reader.read(set);
    },
    async setVolts(volts) {
      const { setVolts, askSetVolts } = dialect;
      await setter.setNumber({ set: setVolts, ask: askSetVolts, unit: 'V', max: maxV }, volts);
      set = { ...set, setV: volts };
    },
    async setLimit(amps) {
      const { setAmps, askSetAmps } = dialect;
      await setter.setNumber({ set: setAmps, ask: askSetAmps, unit: 'A', max: maxA }, amps);
      set = { ...set, limitA: amps };
    },
    setpoints,
    setOwnProtection: (wanted) => setOwnProtection(dialect, setter, wanted),
    async outputOn() {
      if (dialect.outputOn === null) throw cannotSwitch();
      const { urges } = session;
      await setter.send(dialect.outputOn);
      if (!(await staysOff())) return;
      // Some ignore what they are sent in local control, without a word; others are off by now
      // because somebody asked for that meanwhile.
      if (session.urges === urges && dialect.takeRemote !== null) {
        await setter.takeRemote(urges);
        await setter.send(dialect.outputOn, urges);
        if (!(await staysOff())) return;
      }
      throw staysSo(
        'It took the command to switch on, and its output stayed off',
        'Look at the supply: a protection may have tripped, or remote control is off.',
      );
    },
    async outputOff() {
      if (off === null) throw cannotSwitch();
      let failure: unknown = null;
      let isAsked = false;
      for (let i = 0; i < OFF_TRIES; i += 1) {
        // The first one may have been lost or come in local control; after that it may be a relay.
        if (i > 1) await waitForState();
        if (select !== null) await session.urge(select);
        await session.urge(off);
        try {
          const isOn = await askOutput('urgent');
          if (isOn === false) return;
          isAsked = isOn !== null;
        } catch (thrown) {
          if (!session.isOpen) throw thrown;
          failure = thrown;
          // It may have missed both for coming too close behind one another.
          session.pauseMs = Math.max(session.pauseMs, CAREFUL_PAUSE_MS);
        }
        if (dialect.takeRemote !== null) await session.urge(dialect.takeRemote);
      }
      // One that cannot tell has now been told several times.
      if (!isAsked && failure === null) return;
      throw (
        failure ??
        staysSo(`It was sent ${off} and its output stayed on`, 'Switch it off by hand, now.')
      );
    },
  };
}
