import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import {
  type AttentionSettings,
  attentionSettings,
  USUAL_ATTENTION,
} from '../../core/attention/attention-settings.ts';

/** Reads what was chosen; what a file does not say, or says wrongly, is as usual. */
export function readAttention(path: string): AttentionSettings {
  if (!existsSync(path)) return USUAL_ATTENTION;
  try {
    const kept: unknown = JSON.parse(readFileSync(path, 'utf8'));
    const parsed = attentionSettings.partial().safeParse(kept);
    return parsed.success ? { ...USUAL_ATTENTION, ...defined(parsed.data) } : USUAL_ATTENTION;
  } catch {
    return USUAL_ATTENTION;
  }
}

/** Keeps what was chosen, whole or not at all. */
export function keepAttention(path: string, settings: AttentionSettings): void {
  writeFileSync(`${path}.new`, JSON.stringify(settings, null, 2));
  renameSync(`${path}.new`, path);
}

function defined<T extends object>(part: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  const entries = Object.entries(part).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as { [K in keyof T]: Exclude<T[K], undefined> };
}
