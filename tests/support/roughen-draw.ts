import type { Dice, Stretch } from './drawn-draws.ts';

/**
 * The same draw as a less tidy board and supply would show it: edges of 5 to 60 ms, overshoots at
 * steps, a wander of up to 3 %, a lamp that blinks while the board waits, volts that come up in up to
 * 0.25 s and run down slowly, and leads that drop some of them.
 */
export function roughenDraw(stretches: readonly Stretch[], dice: Dice): Stretch[] {
  const edgeS = dice.between(0.005, 0.06);
  const overshoot = dice.next() < 0.5 ? dice.between(0.2, 0.6) : 0;
  const wander = dice.between(0, 0.03);
  const blinks = dice.next() < 0.3;
  const leadOhms = dice.next() < 0.4 ? dice.between(0.05, 0.15) : 0;
  const begins: number[] = [];
  const set: number[] = [];
  let total = 0;
  let heldV = 0;
  for (const s of stretches) {
    begins.push(total);
    total += s.seconds;
    if (typeof s.volts === 'number') heldV = s.volts;
    set.push(heldV);
  }
  let amps = 0;
  let drift = 0;
  let lastS = 0;
  return stretches.map((s, i) => {
    const beforeV = set[i - 1] ?? 0;
    const riseS = dice.between(0.02, 0.25);
    const volts = (t: number) => {
      if (set[i] === 0) return beforeV * Math.exp(-t / 0.3);
      const drop = s.label === 'limited' ? 0 : leadOhms * amps;
      return Math.max(0, set[i]! * (beforeV === 0 ? Math.min(1, t / riseS) : 1) - drop);
    };
    return {
      ...s,
      amps: (t, u, rolls) => {
        const dt = Math.max(0, begins[i]! + t - lastS);
        lastS = begins[i]! + t;
        let target = s.amps(t, u, rolls);
        if (overshoot > 0 && t < 0.04 && target > 1.3 * amps) target *= 1 + overshoot;
        const kept = Math.exp(-dt / 0.4);
        drift = drift * kept + Math.sqrt(1 - kept * kept) * wander * rolls.normal();
        const still = ['off', 'no-draw', 'limited'].includes(s.label);
        if (!still) target *= 1 + drift;
        if (blinks && s.label === 'flat-low' && lastS % 1 < 0.05) target *= 1.25;
        amps += (target - amps) * (1 - Math.exp(-dt / edgeS));
        return Math.max(0, amps);
      },
      ...(typeof s.volts === 'function' ? {} : { volts }),
    };
  });
}
