const KEPT = 'wakeline.pedal-held';

/** Whether an armed output is on only while the pedal is held. */
export function isPedalHeld(): boolean {
  return localStorage.getItem(KEPT) === 'on';
}

export function setPedalHeld(on: boolean): void {
  localStorage.setItem(KEPT, on ? 'on' : 'off');
}
