/** Waits until something holds, looking again every 10 ms; fails with `what` after `withinMs`. */
export async function until(
  holds: () => boolean,
  { withinMs = 30_000, what = holds.toString() }: { readonly withinMs?: number; readonly what?: string } = {},
): Promise<void> {
  const endMs = performance.now() + withinMs
  while (!holds()) {
    if (performance.now() > endMs) throw new Error(`expected within ${withinMs} ms: ${what}`)
    await new Promise((resolve) => setTimeout(resolve, 10))
  }
}
