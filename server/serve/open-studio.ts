import type { Logger } from 'pino'
import type { Clock } from '#core/measure/clock'
import type { Reading } from '#core/measure/reading'
import type { StoveInput } from '#core/watch/stove-input'
import type { Settings } from '#core/wire/settings'
import type { Message } from '../store/messages.ts'
import type { Store } from '../store/store.ts'
import { type Kept, KeptMemory } from '../tell/kept.ts'
import { BridgeDesk } from './bridge-desk.ts'
import { Faults } from './faults.ts'
import { Access } from './guard/access.ts'
import { AdviceDesk } from './heat/advice-desk.ts'
import { EveningDesk } from './heat/evening-desk.ts'
import { ForecastKeeper } from './heat/forecast-keeper.ts'
import { heatWorkHere, type HeatWork } from './heat/heat-work.ts'
import { openBurners, tellLearned } from './heat/open-burners.ts'
import { WakeDesk } from './heat/wake-desk.ts'
import { BeliefBook } from './intake/belief-book.ts'
import { Intake, type ReadingSink } from './intake/intake.ts'
import { KnownProbes } from './intake/known-probes.ts'
import { Recorder } from './recorder.ts'
import { byProbe } from './routes/probes.ts'
import type { Studio } from './studio.ts'
import { PotsOnStove } from './watch/pots-on-stove.ts'
import type { Checkpoint } from './watch/checkpoint.ts'
import { openWatch } from './watch/open-watch.ts'
import type { Watching } from './watch/watching.ts'

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
  /** Names the build; the version when left out. */
  readonly build?: string
  /** Where the watch keeps what it knows between two starts; left out: nowhere. */
  readonly watchKept?: Kept<Checkpoint>
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
  const { store, clock, settings, version } = parts
  const faults = new Faults(parts.log)
  const stoveSide = openStoveSide(parts, ears, faults)
  const { recorder, stove, burners, watching } = stoveSide
  const beliefs = new BeliefBook()
  const probes = new KnownProbes()
  const sink = sinkOf(watching, ears)
  return {
    ...stoveSide,
    store,
    clock,
    settings,
    version,
    beliefs,
    probes,
    advice: new AdviceDesk({ clock, stove, burners }),
    wake: new WakeDesk({ store, recorder, clock, watching, settings }),
    intake: new Intake({ store, clock, recorder, beliefs, probes, sink }),
    access: accessOf(settings(), parts.ownKey),
    showStove: ears.stove,
    listeners: ears.listeners,
    trouble: () => recorder.trouble ?? faults.trouble,
    backup: (file: string) => store.backup(file),
    onFailure: faults.ofWatch,
  }
}

/** The watch over the stove, what it learns of the pots, and the bridges that it hears of. */
function openStoveSide(parts: StudioParts, ears: StudioEars, faults: Faults) {
  const { store, clock } = parts
  const recorder = openRecorder(parts)
  const stove = new PotsOnStove(store)
  const work = parts.heatWork ?? heatWorkHere()
  const learned = (potId: string) =>
    tellLearned({ clock, stove, bridges, burners, watching, showStove: ears.stove }, potId)
  const onLearned = (potId: string) => void learned(potId).catch(faults.ofWatch)
  const burners = openBurners(stove, { store, recorder, clock, work, onLearned, onFailure: faults.ofHeat })
  const bridges = openBridges(parts, (note) => void watching.note(note))
  const { teller, watching } = openWatch({
    ...parts,
    recorder,
    stove,
    burners,
    lagSOf: (probe) => bridges.probeSettings().find((p) => p.name === probe)?.lagS ?? null,
    build: parts.build ?? parts.version,
    kept: parts.watchKept ?? new KeptMemory(),
    message: ears.message,
    onTick: (atMs) => {
      for (const one of [bridges, evenings, told, ears]) one.tick(atMs)
    },
    onFailure: faults.ofWatch,
  })
  const evenings = new EveningDesk({ store, recorder, clock, stove, watching, burners }, work, faults.ofHeat)
  const told = new ForecastKeeper({ store, recorder, stove, watching, burners })
  return { recorder, stove, burners, bridges, teller, watching, evenings }
}

const openRecorder = ({ store, clock, log }: StudioParts): Recorder =>
  new Recorder(store, clock, (trouble) => {
    if (trouble === null) log.info('recording again')
    else log.error(trouble)
  })

/** The watch is told of bridges that come and go. */
function openBridges(
  { clock, log, settings, hasOwnBridge }: StudioParts,
  tell: (note: Extract<StoveInput, { kind: 'bridge' }>) => void,
): BridgeDesk {
  const onUp = (bridge: string, up: boolean) => {
    log[up ? 'info' : 'warn'](up ? `the bridge "${bridge}" is here` : `the bridge "${bridge}" is lost`)
    tell({ kind: 'bridge', atMs: clock.nowMs(), bridge, up })
  }
  return new BridgeDesk(clock, settings, onUp, hasOwnBridge !== false)
}

/** The watch hears of a reading first, pages after it. */
const sinkOf = (watching: Watching, ears: StudioEars): ReadingSink => ({
  live: (reading) => {
    watching.live(reading)
    ears.reading(reading)
  },
  late: (readings) => watching.late(readings),
})

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
  wake,
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
  await wake.load()
  await teller.resume()
}

function accessOf({ key, passphrase }: Settings, ownKey: string): Access {
  return new Access({ keys: [ownKey, ...(key === undefined ? [] : [key])], passphrase: passphrase ?? null })
}
