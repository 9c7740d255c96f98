/** An endpoint's answer that goes out as 304 without a body. */
export const NOT_CHANGED = Symbol('not changed')
