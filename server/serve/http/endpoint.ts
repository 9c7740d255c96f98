import type { z } from 'zod'
import type { Entry } from '../guard/access.ts'

export type Method = 'get' | 'post' | 'put' | 'delete'

/**
 * One route as data: what it takes and gives is checked, answered and described in the OpenAPI document from
 * the same schemas. `path` as in `/api/pots/:id`.
 */
export interface Endpoint {
  readonly method: Method
  readonly path: string
  readonly summary: string
  readonly params?: z.ZodType
  readonly query?: z.ZodType
  readonly body?: z.ZodType
  readonly answer: z.ZodType
  /** Media types of an answer that isn't JSON. */
  readonly answerTypes?: readonly string[]
  /** 200 when left out. */
  readonly status?: number
  handle(ask: Ask<unknown, unknown, unknown>): Promise<unknown>
}

/** A request that has passed its schemas. */
export interface Ask<Params, Query, Body> {
  readonly params: Params
  readonly query: Query
  readonly body: Body
  readonly entry: Entry
  /** The caller's address, for counting tries. */
  readonly from: string
  /** For the few that need the raw request: `If-None-Match`. */
  readonly header: (name: string) => string | undefined
  /** Sets a header of the answer. */
  readonly answerHeader: (name: string, value: string) => void
}

interface Typed<P extends z.ZodType, Q extends z.ZodType, B extends z.ZodType> {
  readonly method: Method
  readonly path: string
  readonly summary: string
  readonly params?: P
  readonly query?: Q
  readonly body?: B
  readonly answer: z.ZodType
  readonly answerTypes?: readonly string[]
  readonly status?: number
  handle(ask: Ask<z.output<P>, z.output<Q>, z.output<B>>): Promise<unknown>
}

/** Lets `handle` know the types that its schemas make. */
export const endpoint = <
  P extends z.ZodType = z.ZodType,
  Q extends z.ZodType = z.ZodType,
  B extends z.ZodType = z.ZodType,
>(
  typed: Typed<P, Q, B>,
): Endpoint => typed
