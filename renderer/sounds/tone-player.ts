import { TONES, type ToneName } from './tone-plan.ts';

/** Makes the app's sounds; there are no sound files. */
export interface TonePlayer {
  play(tone: ToneName): void;
  /** Holds a tone at this pitch, gliding from the last; null lets it fall silent. */
  follow(hz: number | null): void;
  close(): void;
}

const RAMP_S = 0.008;
const GLIDE_S = 0.06;
const FOLLOW_LOUD = 0.08;

/** Opens the sound output at its first tone. Without one on this machine it stays silent. */
export function createTonePlayer(): TonePlayer {
  let context: AudioContext | null = null;
  let voice: { oscillator: OscillatorNode; gain: GainNode } | null = null;

  function open(): AudioContext {
    context ??= new AudioContext({ latencyHint: 'interactive' });
    if (context.state === 'suspended') void context.resume();
    return context;
  }

  function voiceAt(hz: number): { oscillator: OscillatorNode; gain: GainNode } {
    if (voice !== null) return voice;
    const sound = open();
    const oscillator = new OscillatorNode(sound, { type: 'sine', frequency: hz });
    const gain = new GainNode(sound, { gain: 0 });
    oscillator.connect(gain).connect(sound.destination);
    oscillator.start();
    voice = { oscillator, gain };
    return voice;
  }

  return {
    play(tone) {
      const sound = open();
      const beginS = sound.currentTime + 0.005;
      for (const { atS, forS, hz, loud, shape } of TONES[tone]) {
        const oscillator = new OscillatorNode(sound, { type: shape, frequency: hz });
        const gain = new GainNode(sound, { gain: 0 });
        const fromS = beginS + atS;
        // Ramps at both ends: a tone that is cut clicks.
        gain.gain.setValueAtTime(0, fromS);
        gain.gain.linearRampToValueAtTime(loud, fromS + RAMP_S);
        gain.gain.setValueAtTime(loud, fromS + forS - RAMP_S);
        gain.gain.linearRampToValueAtTime(0, fromS + forS);
        oscillator.connect(gain).connect(sound.destination);
        oscillator.start(fromS);
        oscillator.stop(fromS + forS);
      }
    },
    follow(hz) {
      if (hz === null && voice === null) return;
      const { oscillator, gain } = voiceAt(hz ?? 0);
      const nowS = open().currentTime;
      gain.gain.setTargetAtTime(hz === null ? 0 : FOLLOW_LOUD, nowS, GLIDE_S / 3);
      if (hz !== null) oscillator.frequency.setTargetAtTime(hz, nowS, GLIDE_S / 3);
    },
    close() {
      void context?.close();
      context = null;
      voice = null;
    },
  };
}
