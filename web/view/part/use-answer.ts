import { useLayoutEffect, useState } from 'preact/hooks'
import type { Asked } from '../../state/requests.ts'
import { usePage } from '../page-context.ts'

/** What a page fetches when it opens. */
export interface Fetched<T> {
  /** `null` while it is on its way. */
  readonly asked: Asked<T> | null
  readonly again: () => void
}

/** Fetches `path`, and again when it changes, when `again` is called and, if given, every `everyMs`. */
export function useAnswer<T>(path: string, everyMs?: number): Fetched<T> {
  const { requests } = usePage()
  const [found, setFound] = useState<{ readonly path: string; readonly asked: Asked<T> } | null>(null)
  const [round, setRound] = useState(0)
  // Before the frame is painted: the answer is on its way while the page is drawn.
  useLayoutEffect(() => {
    let wanted = true
    const fetchNow = async () => {
      const asked = await requests.ask<T>('GET', path)
      if (wanted) setFound({ path, asked })
    }
    void fetchNow()
    const timer = everyMs === undefined ? undefined : setInterval(() => void fetchNow(), everyMs)
    return () => {
      wanted = false
      clearInterval(timer)
    }
  }, [path, round, everyMs])
  return { asked: found?.path === path ? found.asked : null, again: () => setRound((n) => n + 1) }
}
