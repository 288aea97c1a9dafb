import type { SupplyState } from '../../core/contract/bench-calls.ts';
import type { ProbeState } from '../../core/contract/probing-calls.ts';
import { STAGE_WORDS } from '../../core/stages/stage.ts';
import { quantityParts } from '../../core/units/format.ts';
import { readingParts } from '../../core/units/format-reading.ts';
import { shownDecimals } from '../../core/units/shown-decimals.ts';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { phaseWords } from '../probing/phase-words.ts';
import { ProbeSign } from '../probing/probe-sign.tsx';
import { takenPlace, takenValue } from '../probing/taken-words.ts';
import { useHands } from '../probing/use-hands.ts';
import { useDeskState } from '../state/use-desk.ts';
import { useReadoutKeys } from './use-readout-keys.ts';

/** The readout beside the microscope's picture: reading, unit, next point, stage, amps. */
export function ReadoutPage() {
  const probe = useHands((state) => state.probe);
  const bench = useDeskState((state) => state.bench);
  const live = useDeskState((state) => state.live);
  const alarm = useDeskState((state) => state.alarms[0] ?? null);
  const meter = bench?.meter ?? null;
  const supply = bench?.supply ?? null;
  const isMeterLive = meter?.link === 'live';
  const quantity = meter?.quantity ?? 'volts';
  const reading = readingParts({
    quantity,
    value: isMeterLive ? meter.value : null,
    overload: isMeterLive && meter.overload,
    decimals: shownDecimals(quantity, meter?.decimals ?? 0, meter?.value ?? null),
  });
  const isPowered = bench?.run?.kind === 'powered' && live?.runId === bench.run.id;
  const stage = isPowered ? (live.report.stages.at(-1)?.stage ?? null) : null;
  const amps = quantityParts(
    supply?.link === 'live' ? supply.amps : null,
    'A',
    supply?.ampsDecimals ?? 3,
    { prefix: 0 },
  );
  const isOn = probe !== null && probe.along !== 'off';
  useReadoutKeys(isOn);

  return (
    <main className="readout-page" data-phase={isOn ? probe.phase : 'off'}>
      <h1 className="heard-only">Readout</h1>
      <p className="readout-next">
        {isOn ? (
          <>
            <ProbeSign phase={probe.phase} />
            <strong>{headWords(probe)}</strong>
          </>
        ) : (
          <span>Hands-free is off</span>
        )}
      </p>
      <p className="readout-reading" data-testid="readout-reading">
        <span>{reading.number}</span> <span className="readout-reading-unit">{reading.unit}</span>
      </p>
      {alarm !== null ? (
        <p className="readout-said" role="alert" data-alarm="true">
          {alarm.what}
        </p>
      ) : (
        <p className="readout-said">
          {isOn && probe.why !== null ? probe.why : isOn ? belowWords(probe) : ' '}
        </p>
      )}
      <p className={`readout-draw ${stage === null ? '' : `tint-${stage}`}`}>
        {stage !== null && <StageGlyph stage={stage} width={36} />}
        <span>{stage === null ? outputWords(supply) : STAGE_WORDS[stage]}</span>
        <span className="readout-amps" data-testid="readout-amps">
          {amps.number} {amps.unit}
        </span>
      </p>
    </main>
  );
}

/** What was taken while the probe is still on it; else where it goes next. */
function headWords(probe: ProbeState): string {
  const last = probe.taken[0];
  if (probe.phase === 'lift' && last !== undefined) {
    return `${takenValue(last)} ${takenPlace(last)}`.trim();
  }
  return probe.next === null ? phaseWords(probe) : probe.next.place || probe.next.title;
}

function belowWords(probe: ProbeState): string {
  const { next, phase, taken } = probe;
  const last = taken[0];
  if (phase === 'lift' && last !== undefined) {
    return next === null ? phaseWords(probe) : `Taken. Next: ${next.place || next.title}`;
  }
  const before = last === undefined ? '' : `. Last ${takenValue(last)} ${takenPlace(last)}`;
  return next === null ? before.slice(2) : `${phaseWords(probe)}${before}`;
}

function outputWords(supply: SupplyState | null): string {
  if (supply === null || supply.link !== 'live') return 'No supply';
  return supply.outputOn === false ? 'Output off' : 'Output on';
}
