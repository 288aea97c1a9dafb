import type { Converter } from './converter.ts';

/** Whether its input has the volts that it needs: more to start than to go on. */
export function isFed(converter: Converter, inV: number): boolean {
  const { aboveV, stopsBelowV } = converter.plan.starts;
  return converter.phase === 'idle' ? inV > aboveV : inV > stopsBelowV;
}

/**
 * Moves a converter on to `t`: waiting once it is enabled and fed, on after its delay, and in
 * hiccup back to waiting. True when it began or stopped to give current.
 */
export function moveConverter(converter: Converter, t: number, inV: number): boolean {
  const { plan } = converter;
  const wanted = converter.alive && (converter.enabled || plan.alwaysOn === true);
  if (!wanted || !isFed(converter, inV)) {
    const was = converter.phase;
    converter.phase = 'idle';
    converter.limitedSinceS = Infinity;
    return was === 'on';
  }
  if (converter.phase === 'idle') {
    converter.phase = 'waiting';
    converter.untilS = t + plan.startDelayS;
    return false;
  }
  if (converter.phase === 'waiting') {
    if (t < converter.untilS) return false;
    converter.phase = 'on';
    converter.sinceS = t;
    converter.limitedSinceS = Infinity;
    return true;
  }
  if (!converter.limited) converter.limitedSinceS = Infinity;
  else if (converter.limitedSinceS === Infinity) converter.limitedSinceS = t;
  if (plan.hiccup && t >= converter.limitedSinceS + plan.hiccup.tripS) {
    converter.phase = 'waiting';
    converter.untilS = t + plan.hiccup.retryS;
    converter.limitedSinceS = Infinity;
    return true;
  }
  return false;
}
