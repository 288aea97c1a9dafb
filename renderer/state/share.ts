/**
 * `after` with every part that equals its counterpart in `before` replaced by that counterpart, so
 * that views watching a part see the same reference while nothing in it changed. Plain data only:
 * objects, arrays and scalars, as a message between processes carries them.
 */
export function share<T>(before: unknown, after: T): T {
  if (Object.is(before, after)) return after;
  if (!isPlain(before) || !isPlain(after)) return after;
  if (Array.isArray(before) !== Array.isArray(after)) return after;
  const old = before as Record<string, unknown>;
  const fresh = after as Record<string, unknown>;
  const keys = Object.keys(fresh);
  let isSame = keys.length === Object.keys(old).length;
  const made: Record<string, unknown> = Array.isArray(after) ? ([] as never) : {};
  for (const key of keys) {
    made[key] = share(old[key], fresh[key]);
    if (!Object.is(made[key], old[key]) || !(key in old)) isSame = false;
  }
  return (isSame ? before : made) as T;
}

function isPlain(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !ArrayBuffer.isView(value);
}
