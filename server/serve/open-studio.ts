import type { Logger } from 'pino'
import type { Clock } from '#core/measure/clock'
import type { Reading } from '#core/measure/reading'
import type { WatchSettings } from '#core/watch/watch-settings'
import type { Settings } from '#core/wire/settings'
import type { Message } from '../store/messages.ts'
import type { Store } from '../store/store.ts'
import { BridgeDesk } from './bridge-desk.ts'
import { Access } from './guard/access.ts'
import { AdviceDesk } from './heat/advice-desk.ts'
import { EveningDesk } from './heat/evening-desk.ts'
import { ForecastKeeper } from './heat/forecast-keeper.ts'
import { heatWorkHere, type HeatWork } from './heat/heat-work.ts'
import { openBurners, tellLearned } from './heat/open-burners.ts'
import { BeliefBook } from './intake/belief-book.ts'
import { Intake } from './intake/intake.ts'
import { KnownProbes } from './intake/known-probes.ts'
import { personOf } from './person-of.ts'
import { Recorder } from './recorder.ts'
import { byProbe } from './routes/probes.ts'
import type { Studio } from './studio.ts'
import { coreWatch } from './watch/core-watch.ts'
import { Outcomes } from './watch/outcomes.ts'
import { PotsOnStove } from './watch/pots-on-stove.ts'
import { stoveWords } from './watch/stove-words.ts'
import { Teller } from './watch/teller.ts'
import { Watching } from './watch/watching.ts'

export interface StudioParts {
  readonly store: Store
  readonly clock: Clock
  readonly log: Logger
  readonly settings: () => Settings
  /** The key that the bridge beside the server shows. */
  readonly ownKey: string
  /** A bridge is started beside this server; `true` when left out. */
  readonly hasOwnBridge?: boolean
  /** Where pots are learned; left out: in this thread. */
  readonly heatWork?: HeatWork
  readonly version: string
}

/** What pages and other means are told. */
export interface StudioEars {
  readonly message: (message: Message) => void
  /** Fresh readings, once they are stored. */
  readonly reading: (reading: Reading) => void
  readonly tick: (atMs: number) => void
  readonly stove: () => void
  readonly listeners: () => number
}

/** Puts together everything that works on the record, and nothing that talks to the world. */
export function openStudio(
  parts: StudioParts,
  ears: StudioEars,
): Studio & { readonly onFailure: (error: unknown) => void } {
  const { store, clock, log, settings } = parts
  let failure: string | null = null
  const onFailure = (error: unknown) => {
    failure = 'the watch met a fault of the program: alarms may be missing; see the log'
    log.error({ err: error }, 'the watch failed')
  }
  const recorder = new Recorder(store, clock, (trouble) => {
    if (trouble === null) log.info('recording again')
    else log.error(trouble)
  })
  const beliefs = new BeliefBook()
  const probes = new KnownProbes()
  const stove = new PotsOnStove(store)
  const onBridge = (bridge: string, up: boolean) => {
    log[up ? 'info' : 'warn'](up ? `the bridge "${bridge}" is here` : `the bridge "${bridge}" is lost`)
    void watching.note({ kind: 'bridge', atMs: clock.nowMs(), bridge, up })
  }
  const bridges = new BridgeDesk(clock, settings, onBridge, parts.hasOwnBridge !== false)
  const lagSOf = (probe: string) => bridges.probeSettings().find((p) => p.name === probe)?.lagS ?? null
  const newWatch = () => coreWatch(watchSettings(settings()))
  const work = parts.heatWork ?? heatWorkHere()
  const onHeatFailure = (error: unknown) => log.error({ err: error }, 'a pot could not be learned')
  const onLearned = (potId: string) => void tellLearned(studio, potId).catch(onFailure)
  const burners = openBurners(stove, {
    store,
    recorder,
    clock,
    work,
    onLearned,
    onFailure: onHeatFailure,
  })
  const beliefOf = (potId: string) => burners.beliefOf(potId)
  const outcomes = new Outcomes({
    store,
    recorder,
    newWatch,
    lagSOf,
    beliefOf,
    onRemade: (potIds) => potIds.forEach((potId) => burners.learnSoon(potId, 0)),
  })
  const words = stoveWords(stove, () => personOf(settings()))
  const batchOn = (potId: string) => stove.batchOn(potId)
  const teller = new Teller({ store, recorder, clock, words, batchOn, tell: ears.message })
  const onTick = (atMs: number) => {
    bridges.tick(atMs)
    evenings.tick(atMs)
    told.tick(atMs)
    ears.tick(atMs)
  }
  const watching: Watching = new Watching({
    store,
    clock,
    stove,
    teller,
    newWatch,
    lagSOf,
    beliefOf,
    outcomes,
    onTick,
    onFailure,
  })
  const sink = {
    live: (reading: Reading) => {
      watching.live(reading)
      ears.reading(reading)
    },
    late: (reading: Reading) => watching.late(reading),
  }
  const told = new ForecastKeeper({ store, recorder, stove, watching, burners })
  const evenings = new EveningDesk({ store, recorder, clock, stove, watching, burners }, work, onHeatFailure)
  const studio = {
    store,
    clock,
    recorder,
    beliefs,
    probes,
    stove,
    watching,
    teller,
    bridges,
    burners,
    evenings,
    advice: new AdviceDesk({ clock, stove, burners }),
    settings,
    intake: new Intake({ store, clock, recorder, beliefs, probes, sink }),
    access: accessOf(settings(), parts.ownKey),
    showStove: ears.stove,
    listeners: ears.listeners,
    trouble: () => recorder.trouble ?? failure,
    backup: (file: string) => store.backup(file),
    version: parts.version,
    onFailure,
  }
  return studio
}

/** What the record knows, before anything new comes in. */
export async function takeUp({
  store,
  probes,
  beliefs,
  bridges,
  intake,
  stove,
  teller,
  burners,
  evenings,
}: Studio): Promise<void> {
  await bridges.load(store.probes)
  probes.add((await store.probes.list()).map((p) => p.name))
  probes.add(bridges.probeSettings().map((p) => p.name))
  beliefs.useCorrections(byProbe(await store.probes.corrections()))
  const newest = await store.readings.newest()
  intake.resume(newest)
  probes.heard(newest)
  await stove.refresh()
  await burners.load(stove.all.map(({ pot }) => pot.id))
  await evenings.load()
  await teller.resume()
}

function accessOf({ key, passphrase }: Settings, ownKey: string): Access {
  return new Access({ keys: [ownKey, ...(key === undefined ? [] : [key])], passphrase: passphrase ?? null })
}

/** What the plan file's schema lets through is what the watch takes. */
const watchSettings = ({ alarms }: Settings): WatchSettings =>
  alarms === undefined ? {} : ({ alarms } as WatchSettings)
