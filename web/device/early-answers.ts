/** Answers that were asked for before the program was here, each for whoever asks first. */
const waiting = new Map<string, Promise<Response>>()

export function askEarly(path: string): void {
  const answer = fetch(path, { headers: { accept: 'application/json' } })
  // Whoever takes it hears of a failure; one that nobody takes is nobody's.
  answer.catch(() => undefined)
  waiting.set(path, answer)
}

/** The browser's `fetch`, but what was asked early is not asked again. */
export function fetchOnce(path: string, init: RequestInit): Promise<Response> {
  const early = init.method === 'GET' ? waiting.get(path) : undefined
  if (early === undefined) return fetch(path, init)
  waiting.delete(path)
  return early
}
