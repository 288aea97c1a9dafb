import { readDielectric } from './dielectric.ts';
import type { PartQuestion, Span } from './parsed-part.ts';
import type { PartSpec } from './part-spec.ts';
import {
  coarsestSeries,
  isPreferred,
  nearestPreferred,
  type SeriesName,
} from './preferred-series.ts';
import { sayFigure, sayPartValue } from './say-part-value.ts';

const PRACTICE = 'common practice, no source';
/** A bulk ceramic's ESR is a few milliohms; tens of milliohms is a polymer's. */
const CERAMIC_ESR_FROM_F = 1e-6;
const CERAMIC_ESR_MOST_OHM = 0.015;
/** Above this a class 1 ceramic is not made in a chip case. */
const CLASS_1_MOST_F = 1e-6;
/** Microfarad-volts that a class 2 chip of one cubic-ish body can hold, generous by half again. */
const CLASS_2_MOST_UFV: Readonly<Record<string, number>> = {
  '008004': 2,
  '01005': 5,
  '0201': 30,
  '0402': 150,
  '0603': 600,
  '0805': 1200,
  '1206': 3500,
  '1210': 6000,
};

/** Combinations that do not exist or hardly do, each as a question: the part in the hand wins. */
export function questionPart(
  spec: PartSpec,
  places: Partial<Record<keyof PartSpec, Span>>,
): PartQuestion[] {
  const questions: PartQuestion[] = [];
  const ask = (field: keyof PartSpec, text: string, source = PRACTICE) => {
    const span = places[field] ?? { at: 0, end: 0 };
    questions.push({ ...span, about: 'combination', ask: text, choices: [], source });
  };
  if (spec.kind === 'capacitor') questionCapacitor(spec, ask);
  questionSeries(spec, ask);
  return questions;
}

type Ask = (field: keyof PartSpec, text: string, source?: string) => void;

function questionCapacitor(spec: PartSpec, ask: Ask): void {
  const { value, technology, esrOhm, ratedV, chipCase, tolerance } = spec;
  const dielectric = spec.dielectric === null ? null : readDielectric(spec.dielectric);
  if (dielectric !== null && technology !== null && technology !== 'ceramic') {
    ask(
      'dielectric',
      `${dielectric.code} is a ceramic class and this is ${technology}. Which of the two is it?`,
      'EIA-198, seen second-hand',
    );
  }
  const isBulk = value !== null && value >= CERAMIC_ESR_FROM_F;
  if (technology === 'ceramic' && isBulk && esrOhm !== null && esrOhm > CERAMIC_ESR_MOST_OHM) {
    ask(
      'esrOhm',
      `${sayFigure(esrOhm, 'Ω')} is a polymer's ESR; a ceramic of ${sayPartValue(value, 'capacitor')} has a few milliohms. Is it a ceramic?`,
    );
  }
  if (dielectric?.class === 1 && value !== null && value > CLASS_1_MOST_F) {
    ask(
      'value',
      `${dielectric.code} is hardly made above 1 µF, and this says ${sayPartValue(value, 'capacitor')}. Is the class right?`,
    );
  }
  if (dielectric?.class === 2 && value !== null && value < 99e-12) {
    ask(
      'value',
      `${dielectric.code} is hardly made below 100 pF, and this says ${sayPartValue(value, 'capacitor')}. Is the value right?`,
    );
  }
  const isTight = tolerance?.in === 'percent' && tolerance.high <= 5;
  const isLoose = dielectric?.class === 2 && dielectric.changeLowPercent < -22;
  if (isTight && isLoose) {
    ask(
      'tolerance',
      `${dielectric?.code} strays by more than half with temperature, and ±${tolerance?.high} % would be meaningless on it. Which of the two is right?`,
    );
  }
  const most = chipCase === null ? undefined : CLASS_2_MOST_UFV[chipCase.inch];
  if (technology === 'ceramic' && value !== null && ratedV !== null && most !== undefined) {
    if (value * 1e6 * ratedV > most) {
      ask(
        'chipCase',
        `${sayPartValue(value, 'capacitor')} at ${sayFigure(ratedV, 'V')} hardly fits a ceramic of case ${chipCase?.inch}. Is the case, the value or the rating misread?`,
      );
    }
  }
}

function questionSeries(spec: PartSpec, ask: Ask): void {
  const { kind, value, tolerance } = spec;
  if (value === null || value <= 0) return;
  if (kind !== 'resistor' && kind !== 'capacitor' && kind !== 'inductor') return;
  // Shunts come in round milliohms, and small capacitors in round picofarads, in no series.
  if (kind === 'resistor' && value < 1) return;
  if (kind !== 'resistor' && isRound(value)) return;
  const series = seriesFor(kind, tolerance?.in === 'percent' ? tolerance.high : null);
  const holds = series.some((name) => isPreferred(value, name));
  if (holds) return;
  const widest = series.at(-1) ?? 'E24';
  const [below, above] = nearestPreferred(value, widest);
  const found = coarsestSeries(value);
  const where = found === null ? 'in no preferred series' : `a preferred number only in ${found}`;
  ask(
    'value',
    `${sayPartValue(value, kind)} is ${where}; beside it in ${widest} are ${sayPartValue(below, kind)} and ${sayPartValue(above, kind)}. Is it read right?`,
    'IEC 60063, seen second-hand',
  );
}

function seriesFor(kind: string, percent: number | null): readonly SeriesName[] {
  if (kind !== 'resistor') return ['E24'];
  if (percent === null) return ['E24', 'E96', 'E192'];
  if (percent >= 5) return ['E24'];
  return percent >= 1 ? ['E24', 'E48', 'E96'] : ['E24', 'E96', 'E192'];
}

/** One significant digit: 5 pF, 0.5 pF, 50 nF are made though in no series. */
function isRound(value: number): boolean {
  return Number(value.toPrecision(1)) === Number(value.toPrecision(9));
}
