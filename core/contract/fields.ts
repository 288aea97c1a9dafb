import { z } from 'zod';

/** Schemas shared by several calls. Text is bounded so that no note can fill the ledger by accident. */
export const id = z.uuid();
export const line = z.string().trim().max(200);
export const note = z.string().max(4000);
export const volts = z.number().finite().min(0).max(1000);
export const amps = z.number().finite().min(0).max(1000);

export const feed = z.object({
  point: z.enum(['charger-input', 'battery-line', 'main-rail', 'board-input', 'other']),
  cells: z.boolean(),
  screen: z.boolean(),
  drive: z.boolean(),
  note: line,
});

export const boardFacts = z.object({
  statedInputV: volts.nullable(),
  statedLimitA: amps.nullable(),
  runningA: amps.nullable(),
  runsFlat: z.boolean().nullable(),
});

export const jobFields = z.object({
  boardModel: line.nullable(),
  serialNumber: line,
  customer: line,
  symptom: note,
  liquid: z.enum(['no', 'yes', 'unknown']),
  matters: z.enum(['data', 'device', 'both', 'not-asked']),
  earlierRepairs: note,
  accessories: note,
  promised: note,
  board: boardFacts,
  template: line,
});

export const quantity = z.enum(['volts', 'ohms', 'diode', 'continuity', 'amps']);

export const readingFields = z.object({
  jobId: id.nullable(),
  itemId: id.nullable(),
  runId: id.nullable(),
  quantity,
  value: z.number().finite().nullable(),
  overload: z.boolean(),
  decimals: z.number().int().min(0).max(12).nullable(),
  place: line,
  expectedLow: z.number().finite().nullable(),
  expectedHigh: z.number().finite().nullable(),
  source: z.enum(['meter', 'supply', 'typed']),
});

export const partFields = z.object({
  action: z.enum(['lifted', 'fitted']),
  designator: line,
  kind: line,
  value: line,
  rail: line,
  stateFound: line,
  from: line,
});

export const outcomeFields = z.object({
  verdict: z.enum(['wakes', 'partly', 'not-repaired', 'returned-untouched']),
  cause: note,
  provedBy: note,
  misledBy: note,
});
