/** The state that each job's board was last said to be in, while the window is open. */
const said = new Map<string, string | null>();

export const saidState = (jobId: string): string | null => said.get(jobId) ?? null;

export function keepSaidState(jobId: string, state: string | null): void {
  said.set(jobId, state);
}
