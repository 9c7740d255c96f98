import { z } from 'zod'

/** One line of text that a person can see: what is only blanks or control characters is no name for anything. */
export const visibleLine = (most: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(most)
    .refine(isVisible, 'allowed is one line of text that can be seen, without control characters')

const isVisible = (text: string): boolean =>
  /[^\p{C}\p{Z}]/u.test(text) && !/[\p{Cc}\p{Zl}\p{Zp}]/u.test(text)
