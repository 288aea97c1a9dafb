/**
 * Where SQLite's native part lies when the one that ships with the driver does not fit this
 * runtime; undefined = the shipped one. A path handed in wins over `WAKELINE_SQLITE_BINDING`.
 */
export function sqliteBinding(given?: string): string | undefined {
  return given || process.env.WAKELINE_SQLITE_BINDING || undefined;
}
