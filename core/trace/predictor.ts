import { BUCKETS, FRACTIONS } from './integer-model.ts';

const LAST = 0;
const LEVEL = 1;
const DRIFT = 2;
const SCHEDULE = 3;
const PREDICTORS = 4;

/** Mean sizes of residuals at which the bucket changes. */
const BUCKET_LIMITS = [0.59, 1.52, 3, 5.35, 9.1, 15, 24.4];
/** How long a level is averaged, in samples. */
const LEVEL_SAMPLES = 24;

/**
 * Predicts the next whole number of a series from those before: the last one (walks and steps),
 * a settled level (noise around a draw), the last one plus the usual step (clocks that run late
 * and stay late), a schedule (clocks that jitter around their times; slopes). The one that did
 * best lately is used. Sums and products of doubles only, no library functions, so that every
 * engine predicts the same.
 */
export class Predictor {
  /** The next number, rounded. */
  prediction = 0;
  /** Which part of a whole the rounding took away, for `ResidualModel`. */
  fraction = 0;
  /** How large the last residuals were, for `ResidualModel`. */
  bucket = 0;

  private readonly guesses = new Float64Array(PREDICTORS);
  private readonly costs = new Float64Array(PREDICTORS);
  private seen = 0;
  private last = 0;
  private level = 0;
  private quick = 0;
  private step = 0;
  private due = 0;
  private pace = 0;
  private size = 4;

  /** Takes the number that really came and predicts the one after it. */
  update(value: number): void {
    const { guesses, costs } = this;
    const seen = this.seen;
    this.size +=
      (Math.abs(value - this.prediction) - this.size) * (seen < 8 ? 1 / (seen + 2) : 0.15);
    for (let i = 0; i < PREDICTORS; i += 1) {
      const error = value - guesses[i]!;
      costs[i] = costs[i]! * 0.95 + priceOf(error * error);
    }
    this.follow(value);
    guesses[LAST] = value;
    guesses[LEVEL] = this.level;
    guesses[DRIFT] = value + this.step;
    guesses[SCHEDULE] = this.due + this.pace;
    this.seen = seen + 1;
    this.choose();
  }

  private follow(value: number): void {
    const seen = this.seen;
    const step = value - this.last;
    this.quick += (value - this.quick) * (seen < 3 ? 1 / (seen + 1) : 0.25);
    this.level +=
      (value - this.level) * (seen < LEVEL_SAMPLES ? 1 / (seen + 1) : 1 / LEVEL_SAMPLES);
    // After a step the level starts anew where the readings now are.
    if (
      Math.abs(value - this.level) > 4 * this.size + 4 &&
      Math.abs(value - this.quick) < this.size + 1
    ) {
      this.level = this.quick;
    }
    if (seen > 0) this.step += (step - this.step) * (seen < 32 ? 1 / seen : 1 / 32);
    const late = value - (this.due + this.pace);
    if (seen < 2 || Math.abs(late) > 16 * this.size + 16) {
      this.due = value;
      this.pace = seen === 0 ? 0 : seen === 1 ? step : this.step;
    } else {
      this.due += this.pace + late * 0.15;
      this.pace += late * 0.02;
    }
    this.last = value;
  }

  private choose(): void {
    const { guesses, costs } = this;
    let best = 0;
    for (let i = 1; i < PREDICTORS; i += 1) if (costs[i]! < costs[best]!) best = i;
    const guess = guesses[best]!;
    const rounded = Math.round(guess);
    this.prediction = rounded;
    this.fraction = Math.min(FRACTIONS - 1, Math.floor((guess - rounded + 0.5) * FRACTIONS));
    let bucket = 0;
    while (bucket < BUCKETS - 1 && this.size >= BUCKET_LIMITS[bucket]!) bucket += 1;
    this.bucket = bucket;
  }
}

/** About log2(1 + square / 2), made of straight pieces: what an error of that size costs in bits. */
function priceOf(square: number): number {
  const scaled = square < 2 ** 26 ? (square * 8 + 16) | 0 : 2 ** 29;
  const whole = 31 - Math.clz32(scaled);
  const price = whole - 4 + scaled / (1 << whole) - 1;
  // Beyond that only the order matters.
  return square < 2 ** 26 ? price : price + square / 2 ** 30;
}
