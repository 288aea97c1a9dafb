import { type FormEvent, useState } from 'react';
import { wireOhm } from '../../core/shorts/copper.ts';
import type { Hunt } from '../../core/shorts/hunt.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { parseQuantity } from '../../core/units/parse.ts';
import type { Unit } from '../../core/units/unit.ts';
import { useActions } from '../state/use-desk.ts';

const shown = (value: number | null) =>
  value === null ? '' : String(Number(value.toPrecision(4)));

const LEAD_WORDS = { unknown: 'not known', measured: 'measured', typed: 'typed' } as const;

/** What a hunt rests on: leads, reference, the meter's noise, what else stands less than the rail. */
export function HuntFacts({ hunt }: { hunt: Hunt }) {
  const { ask, say } = useActions();
  const [typed, setTyped] = useState({
    reference: hunt.reference,
    leadOhm: shown(hunt.leadOhm),
    mostA: shown(hunt.mostA),
    ratings: hunt.ratings.map(({ name, standsV }) => `${name} ${standsV} V`).join(', '),
  });
  const [wire, setWire] = useState({ awg: '', lengthM: '' });
  const [wrong, setWrong] = useState<string | null>(null);
  const [isMeasuring, setMeasuring] = useState(false);

  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const lead = readNumber(typed.leadOhm, 'Ω', 10);
    const most = readNumber(typed.mostA, 'A', 1000);
    const ratings = readRatings(typed.ratings);
    const bad =
      lead === undefined
        ? `"${typed.leadOhm}" is no resistance of leads from 0 to 10 Ω.`
        : most === undefined
          ? `"${typed.mostA}" is no current. Type amps, or leave it empty.`
          : ratings === null
            ? `"${typed.ratings}" is not read. Type a part and its volts, like "C7 4 V, U12 1.1 V".`
            : typed.reference.trim() === ''
              ? 'Name where the meter’s other probe stays.'
              : null;
    setWrong(bad);
    if (bad !== null || lead === undefined || most === undefined || ratings === null) return;
    const isLeadSame = shown(hunt.leadOhm) === typed.leadOhm;
    const kept = await ask('changeHunt', {
      huntId: hunt.id,
      reference: typed.reference,
      ...(isLeadSame ? {} : { lead: lead === null ? null : { ohm: lead, from: 'typed' as const } }),
      mostA: most,
      ratings,
    });
    if (kept !== null) say('Kept with the hunt.');
  };
  const measureNoise = async (): Promise<void> => {
    setMeasuring(true);
    const noise = await ask('measureMeterNoise', {});
    setMeasuring(false);
    if (noise === null) return;
    await ask('changeHunt', { huntId: hunt.id, meterSigmaV: noise.sigmaV });
    say('The meter’s noise is kept.');
  };
  const field = (name: keyof typeof typed, label: string, hint?: string) => (
    <label className="field">
      {label}
      <input
        className="field-input"
        autoComplete="off"
        maxLength={200}
        placeholder={hint}
        value={typed[name]}
        onChange={(event) => setTyped({ ...typed, [name]: event.target.value })}
      />
    </label>
  );
  const wired = wireOf(wire);
  return (
    <details className="hunt-facts" open={hunt.leadOhm === null && hunt.points.length === 0}>
      <summary>
        Leads{' '}
        {hunt.leadOhm === null
          ? 'not known'
          : formatQuantity(hunt.leadOhm, 'Ω', null, { digits: 3 })}
        {hunt.leadOhm === null ? '' : ` (${LEAD_WORDS[hunt.leadFrom]})`}, reference, meter, ratings
      </summary>
      <form aria-label="What the hunt rests on" onSubmit={(event) => void onSubmit(event)}>
        {field('leadOhm', 'Both leads, Ω (measure them, or type)')}
        {field('mostA', 'Most amps on the way (a fuse, a coil)')}
        {field('reference', 'The meter’s other probe stays at')}
        {field('ratings', 'Parts that stand less than the rail', 'C7 4 V, U12 1.1 V')}
        <button type="submit" className="plain">
          Keep with the hunt
        </button>
        {wrong !== null && (
          <p role="alert" className="form-wrong">
            {wrong}
          </p>
        )}
      </form>
      <form
        className="wire-form"
        aria-label="Leads by their wire"
        onSubmit={(event) => {
          event.preventDefault();
          if (wired !== null) setTyped({ ...typed, leadOhm: shown(wired) });
        }}
      >
        <label className="field">
          Wire gauge, AWG
          <input
            className="field-input"
            inputMode="numeric"
            maxLength={3}
            value={wire.awg}
            onChange={(event) => setWire({ ...wire, awg: event.target.value })}
          />
        </label>
        <label className="field">
          Both together, m
          <input
            className="field-input"
            inputMode="decimal"
            maxLength={6}
            value={wire.lengthM}
            onChange={(event) => setWire({ ...wire, lengthM: event.target.value })}
          />
        </label>
        <button type="submit" className="plain" disabled={wired === null}>
          {wired === null
            ? 'Copper alone'
            : `Copper alone: ${formatQuantity(wired, 'Ω', null, { digits: 2 })}`}
        </button>
      </form>
      <div className="noise-row">
        <span>
          Noise of the meter:{' '}
          {hunt.meterSigmaV === null
            ? 'not measured'
            : formatQuantity(hunt.meterSigmaV, 'V', null, { digits: 2 })}
        </span>
        <button
          type="button"
          className="plain"
          aria-disabled={isMeasuring}
          onClick={() => {
            if (!isMeasuring) void measureNoise();
          }}
        >
          {isMeasuring ? 'Hold the probe still…' : 'Measure it: probe still on a point'}
        </button>
      </div>
    </details>
  );
}

function readNumber(text: string, unit: Unit, most: number): number | null | undefined {
  if (text.trim() === '') return null;
  const parsed = parseQuantity(text, unit);
  const value = parsed.ok ? parsed.value : null;
  return value !== null && value >= 0 && value <= most ? value : undefined;
}

function readRatings(text: string): { name: string; standsV: number }[] | null {
  const parts = text.split(',').filter((part) => part.trim() !== '');
  const read = parts.map((part) => {
    const [, name = '', volts = ''] = /^\s*(\S+)\s+(.+?)\s*$/.exec(part) ?? [];
    const standsV = readNumber(volts, 'V', 1000);
    return name === '' || standsV == null || standsV === 0 ? null : { name, standsV };
  });
  return read.every((one) => one !== null) ? read : null;
}

function wireOf({ awg, lengthM }: { awg: string; lengthM: string }): number | null {
  const [gauge, metres] = [Number(awg), Number(lengthM)];
  const isWire = awg.trim() !== '' && gauge >= 0 && gauge <= 40 && metres > 0 && metres <= 100;
  return isWire ? wireOhm(gauge, metres) : null;
}
