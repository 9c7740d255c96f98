import { claimsNow, isNews, type ToldClaim } from '#core/bath/told-claim'
import { hasWindow } from '#core/watch/stage-window'
import type { ToldForecast } from '../../store/heat.ts'
import type { Studio } from '../studio.ts'
import { type PotOnStove, runningStage } from '../watch/pots-on-stove.ts'

/** What was last said at a pot, while it stands as it does. */
interface Said {
  /** Run, dial, lid, goods and what was learned: once one of them changes, what was said holds no more. */
  readonly standing: string
  readonly claims: readonly ToldClaim[]
}

const LOOK_MS = 10_000
/** A kind of forecast that wavers is kept this often at most, ms. */
const APART_MS = 3 * 60_000

type Seen = Pick<Studio, 'store' | 'recorder' | 'stove' | 'watching' | 'burners'>

/**
 * Keeps the forecasts that the page shows, so that they can be held to what comes: when one is first said in a stage
 * or after a touch, and when it has left the range that was given with it.
 */
export class ForecastKeeper {
  readonly #studio: Seen
  readonly #said = new Map<string, Said>()
  #lookedMs = 0

  constructor(studio: Seen) {
    this.#studio = studio
  }

  /** Called with each tick of the watch; looks every ten seconds. */
  tick(atMs: number): void {
    if (atMs - this.#lookedMs < LOOK_MS) return
    this.#lookedMs = atMs
    const told = this.#studio.stove.all.flatMap((one) => this.#look(one, atMs))
    if (told.length > 0) void this.#studio.recorder.keep(() => this.#studio.store.heat.addTold(told))
  }

  #look(one: PotOnStove, atMs: number): readonly ToldForecast[] {
    const { watching, burners } = this.#studio
    const { pot, batch } = one
    const run = batch === null ? null : runningStage(batch, pot.id)
    const stage = batch?.plan.stages.find((s) => s.id === run?.stageId)
    const forecast = stage === undefined ? null : watching.forecast(pot.id)
    if (run === null || stage === undefined || forecast === null) return []
    const fromTraces = burners.isGuess(pot.id) ? 0 : (burners.beliefOf(pot.id)?.traces ?? 0)
    const { dial, lid, goodsIn } = watching.numbers(pot.id)
    const standing = JSON.stringify([run.id, dial, lid, goodsIn, fromTraces])
    const claims = claimsNow(forecast, atMs, hasWindow(stage) ? stage.windowC : null)
    const news = this.#news(pot.id, standing, claims)
    return news.map((claim) => Object.assign({ potId: pot.id, stageId: stage.id, fromTraces }, claim))
  }

  #news(potId: string, standing: string, claims: readonly ToldClaim[]): readonly ToldClaim[] {
    const known = this.#said.get(potId)
    const before = known?.standing === standing ? known.claims : []
    const news = claims.filter((claim) => {
      const last = before.find(({ kind }) => kind === claim.kind)
      return last === undefined || (isNews(claim, last) && claim.madeMs - last.madeMs >= APART_MS)
    })
    const kept = before.filter(({ kind }) => !news.some((claim) => claim.kind === kind))
    this.#said.set(potId, { standing, claims: [...kept, ...news] })
    return news
  }
}
