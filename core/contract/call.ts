import type { z } from 'zod';

/** One call from the window: a schema that its arguments must pass, and the type it answers. */
export interface Call<A extends z.ZodType = z.ZodType, R = unknown> {
  readonly args: A;
  /** Never present: carries the answer's type. */
  readonly answers?: R;
}

/** Declares a call that answers `R`: `answers<Job>()(z.object({ id }))`. */
export const answers =
  <R>() =>
  <A extends z.ZodType>(args: A): Call<A, R> => ({ args });

export type ArgsOf<C> = C extends Call<infer A, unknown> ? z.infer<A> : never;
export type AnswerOf<C> = C extends Call<z.ZodType, infer R> ? R : never;
