import { useEffect, useState } from 'preact/hooks'
import type { PotLive } from '#core/wire/live'
import { usePage } from '../page-context.ts'
import type { BandedPoint } from '../chart/banded-line.ts'

const EVERY_MS = 20_000

/** How the bath goes on if nothing is touched, asked for again and again; empty where nothing can be said. */
export function useForecast({ potId, stage, tempC, dial, lid }: PotLive): readonly BandedPoint[] {
  const { requests } = usePage()
  const [path, setPath] = useState<readonly BandedPoint[]>([])
  const wanted = stage !== null && tempC !== null
  useEffect(() => {
    if (!wanted) return setPath([])
    let isHere = true
    const fetchNow = async () => {
      const at = `/api/pots/${encodeURIComponent(potId)}/forecast`
      const found = await requests.ask<{ readonly path: readonly BandedPoint[] }>('GET', at)
      if (isHere) setPath(found.ok ? found.value.path : [])
    }
    void fetchNow()
    const timer = setInterval(() => void fetchNow(), EVERY_MS)
    return () => {
      isHere = false
      clearInterval(timer)
    }
  }, [potId, stage?.id, wanted, dial, lid])
  return path
}
