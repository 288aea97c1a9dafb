/** One version of a checklist template; a row is never changed. */
export interface ChecklistTemplateRow {
  id: string;
  /** The kind of job. */
  key: string;
  /** From 1, counted for its key. */
  version: number;
  title: string;
  steps_json: string;
  /** `built-in`, `shop` (edited here), `file` (read in) or `away` (no longer offered). */
  origin: string;
  /** What its safety gates lost against the built-in one, with a person's knowledge. */
  lost_json: string;
  made_by: string;
  made_at: number;
}

export interface TemplateTables {
  checklist_templates: ChecklistTemplateRow;
}
