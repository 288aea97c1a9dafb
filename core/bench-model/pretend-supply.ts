import { readChannelList } from '../scpi/read-list.ts';
import type { CommandOutcome, ScpiCommand } from '../scpi/scpi-command.ts';
import { createScpiDevice, type ScpiDevice } from '../scpi/scpi-device.ts';
import { isFault, scpiFault } from '../scpi/scpi-fault.ts';
import { writeFixed } from '../scpi/write-value.ts';
import { bit, limits, type Setting, settingCommands, switchCommands } from './supply-settings.ts';
import { createSupplyStage, retune, STAGE_BUILD, type SupplyStage } from './supply-stage.ts';

/** What the supply needs of the bench around it. */
export interface SupplyBench {
  readonly stage: SupplyStage;
  nowS(): number;
  /** Brings the bench up to now; gives what happened to regulation since the last time. */
  refresh(): { condition: number; since: number };
  /** Readings as the instrument shows them. */
  measureV(): number;
  measureA(): number;
  /** Tells the circuit that the stage was changed. */
  changed(): void;
  log(command: string): void;
}

/**
 * The pretend bench supply: one channel, 0 to 60 V, 0 to 10 A, 1 mV and 1 mA steps. Regulation
 * is told by the questionable condition: 0 off, 1 constant current, 2 constant voltage; 512
 * over-voltage tripped, 1024 over-current tripped.
 */
export function createPretendSupply(bench: SupplyBench): ScpiDevice {
  const { stage } = bench;

  function tune(change: Partial<SupplyStage>): undefined {
    retune(stage, bench.nowS(), change);
    bench.changed();
  }

  const settings: Setting[] = [
    {
      pattern: '[SOURce#:]VOLTage[:LEVel][:IMMediate][:AMPLitude]',
      rule: limits('V', 0, STAGE_BUILD.maxV, 0),
      get: () => stage.setV,
      put: (setV) => tune({ setV }),
    },
    {
      pattern: '[SOURce#:]CURRent[:LEVel][:IMMediate][:AMPLitude]',
      rule: limits('A', 0, STAGE_BUILD.maxA, 1),
      get: () => stage.limitA,
      put: (limitA) => tune({ limitA }),
    },
    {
      pattern: '[SOURce#:]VOLTage:PROTection[:LEVel]',
      rule: limits('V', 0.5, 66, 66),
      get: () => stage.overV.level,
      put: (level) => tune({ overV: { ...stage.overV, level } }),
    },
    {
      pattern: '[SOURce#:]CURRent:PROTection[:LEVel]',
      rule: limits('A', 0.05, 11, 11),
      get: () => stage.overA.level,
      put: (level) => tune({ overA: { ...stage.overA, level } }),
    },
    {
      pattern: '[SOURce#:]CURRent:PROTection:DELay',
      rule: limits('S', 0, 10, 0.02),
      get: () => stage.overA.delayS,
      put: (delayS) => tune({ overA: { ...stage.overA, delayS } }),
    },
  ];

  function clearTrips(): undefined {
    tune({
      overV: { ...stage.overV, tripped: false },
      overA: { ...stage.overA, tripped: false, sinceS: Infinity },
    });
  }

  function switchOutput(on: boolean): CommandOutcome {
    if (on && (stage.overV.tripped || stage.overA.tripped)) {
      return scpiFault(-221, 'protection has tripped');
    }
    return on === stage.on ? undefined : tune({ on });
  }

  const commands: ScpiCommand[] = [
    ...settings.flatMap(settingCommands),
    ...switchCommands('OUTPut#[:STATe]', () => stage.on, switchOutput),
    ...switchCommands(
      '[SOURce#:]VOLTage:PROTection:STATe',
      () => stage.overV.enabled,
      (enabled) => tune({ overV: { ...stage.overV, enabled } }),
    ),
    ...switchCommands(
      '[SOURce#:]CURRent:PROTection:STATe',
      () => stage.overA.enabled,
      (enabled) => tune({ overA: { ...stage.overA, enabled } }),
    ),
    { pattern: '[SOURce#:]VOLTage:PROTection:TRIPped?', run: () => bit(stage.overV.tripped) },
    { pattern: '[SOURce#:]CURRent:PROTection:TRIPped?', run: () => bit(stage.overA.tripped) },
    { pattern: '[SOURce#:]VOLTage:PROTection:CLEar', run: clearTrips },
    { pattern: '[SOURce#:]CURRent:PROTection:CLEar', run: clearTrips },
    { pattern: 'OUTPut#:PROTection:CLEar', run: clearTrips },
    measurement('VOLTage', () => bench.measureV()),
    measurement('CURRent', () => bench.measureA()),
    measurement('POWer', () => bench.measureV() * bench.measureA()),
    { pattern: 'SYSTem:REMote', run: () => undefined },
    { pattern: 'SYSTem:LOCal', run: () => undefined },
    { pattern: 'SYSTem:RWLock', run: () => undefined },
  ];

  return createScpiDevice({
    identity: ['Wakeline pretend bench', 'SUPPLY 60V-10A', 'P0001', '1.0'],
    tellsDetail: false,
    commands,
    errorPlaces: 16,
    inputBytes: 512,
    lineEnding: '\n',
    powerOnEvent: true,
    reset: () => tune(createResetState()),
    selfTest: () => 0,
    refresh(status) {
      const { condition, since } = bench.refresh();
      status.observe('questionable', condition | since);
      status.observe('questionable', condition);
    },
    onCarriedOut: (text) => bench.log(text),
  });
}

function createResetState(): Partial<SupplyStage> {
  const { setV, limitA, on, overV, overA } = createSupplyStage();
  return { setV, limitA, on, overV, overA };
}

/** A measurement, with or without the list of its only channel: `(@1)`. */
function measurement(of: string, take: () => number): ScpiCommand {
  return {
    pattern: `MEASure[:SCALar]:${of}[:DC]?`,
    takes: [0, 1],
    run: ({ parameters }) => {
      const list = parameters[0] ? readChannelList(parameters[0]) : [];
      if (isFault(list)) return list;
      const others = list.some(({ from, to }) => from.join() !== '1' || to.join() !== '1');
      return others ? scpiFault(-222, 'channel') : writeFixed(take(), 3);
    },
  };
}
