import type { Finding } from '../finding/finding.ts';

/** A reading at a point of the rail, volts against the hunt's reference. */
export interface HuntReading {
  readonly id: string;
  readonly volts: number;
  /** Digits after the point, in volts; null when not known. */
  readonly decimals: number | null;
  /** Current that flowed as it was read; 0 = none. */
  readonly amps: number;
  readonly source: 'meter' | 'typed';
  readonly takenAt: number;
}

/** A place on a picture, 0 to 1 from its left and top edges. */
export interface PicturePlace {
  readonly pictureId: string;
  readonly x: number;
  readonly y: number;
}

/** A point of the rail that is touched. */
export interface HuntPoint {
  readonly id: string;
  readonly name: string;
  /** Along the track from where the current goes in, mm; null when not known. */
  readonly alongMm: number | null;
  readonly onPicture: PicturePlace | null;
  /** Oldest first. */
  readonly readings: readonly HuntReading[];
}

/** A part that the injected rail reaches, with the volts that it stands. */
export interface PartRating {
  readonly name: string;
  readonly standsV: number;
}

export type LeadFrom = 'unknown' | 'measured' | 'typed';

/** A hunt for a short along one rail of a job's board. */
export interface Hunt {
  readonly id: string;
  readonly jobId: string;
  readonly rail: string;
  /** Where the meter's other probe stays. */
  readonly reference: string;
  /** Ohms of both injecting leads together; null = not known. */
  readonly leadOhm: number | null;
  readonly leadFrom: LeadFrom;
  /** One standard deviation of the meter, volts; null = not measured. */
  readonly meterSigmaV: number | null;
  /** Most amps that something in the current's way stands (a fuse, a coil); null = nothing known. */
  readonly mostA: number | null;
  /** Parts with a rating below what the board's table tells. */
  readonly ratings: readonly PartRating[];
  readonly beganAt: number;
  readonly points: readonly HuntPoint[];
  /** Runs in which current was put in, oldest first. */
  readonly runIds: readonly string[];
  /** What was concluded from it; null while nothing was. */
  readonly finding: Finding | null;
  readonly concludedAt: number | null;
}
