import type { BathEvent } from '#core/plan/event'
import type { StoveInput } from '#core/watch/stove-input'
import type { PotRecord, StageRun } from '#core/wire/records'
import { type StoredBatch, bathId } from '../store/batches.ts'
import type { StoredEvent } from '../store/events.ts'
import { hangProbe, takeProbesOut } from './hang-probe.ts'
import { notFound, Problem } from './http/problem.ts'
import { refuseOffDial } from './refuse-off-dial.ts'
import { refuseBeforeRunning, timeNoted } from './noted-time.ts'
import { putOn, stageOf } from './stage-of-batch.ts'
import type { Studio } from './studio.ts'
import { potSetup } from './watch/pot-setup.ts'

/** A note of longer ago may belong to a fill that was learned from already, ms. */
const LATER_MS = 60_000

export interface NotedEvent {
  readonly potId: string
  readonly event: BathEvent
  readonly atMs: number | undefined
  readonly who: string | null
}

/** What people do at the stove: written down first, then told to the watch, then shown. */
export class StoveKeeper {
  readonly #studio: Studio

  constructor(studio: Studio) {
    this.#studio = studio
  }

  async startStage(
    batchId: number,
    stageId: string,
    ask: {
      readonly potId: string
      readonly probe?: string | null | undefined
      readonly atMs?: number | undefined
      readonly who: string | null
    },
  ): Promise<StageRun> {
    const { store, recorder } = this.#studio
    const batch = await this.bath(batchId)
    const stage = stageOf(batch, stageId)
    const pot = await this.pot(ask.potId)
    const startedMs = timeNoted(this.#studio.clock, ask.atMs)
    refuseBeforeRunning(batch, startedMs)
    const probe = ask.probe === undefined ? pot.probe : ask.probe
    const hung =
      probe === null || probe === pot.probe
        ? []
        : await hangProbe(this.#studio, { probe, potId: pot.id, atMs: startedMs })
    const isNewOnPot = this.#studio.stove.batchOn(pot.id) !== batch.id
    await this.#studio.watching.saveOutcomes()
    const run = await recorder.write(() =>
      store.batches.startStage({ batchId: batch.id, stageId, potId: pot.id, probe, startedMs }),
    )
    const event: BathEvent = { kind: 'stage', stageId: stage.id }
    await this.#write({ potId: pot.id, event, atMs: startedMs, who: ask.who }, batch.id, stageId)
    const put = isNewOnPot ? [putOn(batch, pot.id, startedMs)] : []
    await this.#tell([...hung, ...put, { kind: 'event', atMs: startedMs, potId: pot.id, event }])
    this.#studio.burners.learnSoon(pot.id)
    return run
  }

  /** `stage:…` and `end` do what they say; everything else is noted. */
  async note(noted: NotedEvent, batchId: number | null): Promise<StoredEvent> {
    const atMs = timeNoted(this.#studio.clock, noted.atMs)
    refuseOffDial(await this.pot(noted.potId), noted.event)
    const onPot = this.#studio.stove.find(noted.potId)?.batch ?? null
    const batch = batchId === null ? onPot : await this.bath(batchId)
    const run = batch?.stages.find((r) => r.startedMs <= atMs && (r.endedMs === null || atMs < r.endedMs))
    const event = await this.#write({ ...noted, atMs }, batch?.id ?? null, run?.stageId ?? null)
    await this.#tell([{ kind: 'event', atMs, potId: noted.potId, event: noted.event }])
    if (atMs < this.#studio.clock.nowMs() - LATER_MS) this.#studio.burners.learnSoon(noted.potId, atMs)
    return event
  }

  async endBatch(batchId: number, atMs: number | undefined, who: string | null): Promise<StoredBatch> {
    const { store, recorder, watching } = this.#studio
    const batch = await this.bath(batchId)
    if (batch.state === 'ended') throw new Problem(409, `batch ${batchId} has ended already`)
    const endedMs = timeNoted(this.#studio.clock, atMs)
    const potIds = batch.stages.filter((run) => run.endedMs === null).map((run) => run.potId)
    const inputs: StoveInput[] = []
    for (const potId of potIds) {
      await this.#write({ potId, event: { kind: 'end' }, atMs: endedMs, who }, batch.id, null)
      inputs.push({ kind: 'event', atMs: endedMs, potId, event: { kind: 'end' } })
    }
    await watching.note(...inputs)
    await watching.saveOutcomes()
    await recorder.write(() => store.batches.end(batch.id, endedMs))
    await this.#tell([])
    for (const potId of potIds) this.#studio.burners.learnSoon(potId)
    return this.batch(batchId)
  }

  /** What was taken back counts no more: the day is folded again and the burner learned again without it. */
  async strike(eventId: number, who: string | null): Promise<void> {
    const { store, recorder, clock, watching } = this.#studio
    const struck = await recorder.write(() => store.events.strike(eventId, clock.nowMs(), who))
    if (struck === null) throw notFound(`event ${eventId} that still stands`)
    await watching.rebuild()
    await this.#tell([])
    if (struck.potId !== null) this.#studio.burners.learnSoon(struck.potId, struck.atMs)
  }

  async addPot(pot: Omit<PotRecord, 'probe'>): Promise<void> {
    await this.#studio.recorder.write(() => this.#studio.store.pots.add(pot))
    await this.#tell([this.#setup(pot, null)])
  }

  async changePot(pot: Omit<PotRecord, 'probe'>): Promise<void> {
    const known = await this.pot(pot.id)
    await this.#studio.recorder.write(() => this.#studio.store.pots.change(pot.id, pot))
    await this.#tell([this.#setup(pot, known.probe)])
  }

  async removePot(potId: string): Promise<void> {
    await this.pot(potId)
    if (this.#studio.stove.batchOn(potId) !== null)
      throw new Problem(409, 'a stage is running in this pot; end its batch first')
    const atMs = this.#studio.clock.nowMs()
    await this.#studio.recorder.write(() => this.#studio.store.pots.remove(potId, atMs))
    await this.#tell([{ kind: 'pot-gone', atMs, potId }])
  }

  /** From now on this probe hangs in this pot; `null` takes out the one that does. */
  async hangProbe(potId: string, probe: string | null): Promise<void> {
    const pot = await this.pot(potId)
    const atMs = this.#studio.clock.nowMs()
    if (probe !== null) return this.#tell(await hangProbe(this.#studio, { probe, potId, atMs }))
    if (pot.probe === null) return
    const old = pot.probe
    await this.#studio.recorder.write(() => this.#studio.store.pots.unassign(old, potId, atMs))
    await this.#tell([{ kind: 'assign', atMs, probe: old, potId, use: 'off' }])
  }

  /** From now on these probes hang nowhere. */
  async takeOut(probes: ReadonlySet<string>): Promise<void> {
    await this.#tell(await takeProbesOut(this.#studio, probes))
  }

  async batch(id: number): Promise<StoredBatch> {
    const batch = await this.#studio.store.batches.get(id)
    if (batch === null) throw notFound(`batch ${id}`)
    return batch
  }

  /** The batch whose bath it is: what is done to one lot in it is done to all. */
  async bath(id: number): Promise<StoredBatch> {
    const batch = await this.batch(id)
    return batch.bathOf === null ? batch : this.batch(bathId(batch))
  }

  async pot(id: string): Promise<PotRecord> {
    const pot = await this.#studio.store.pots.get(id)
    if (pot === null) throw notFound(`pot "${id}"`)
    return pot
  }

  #setup(pot: Omit<PotRecord, 'probe'>, probe: string | null): StoveInput {
    const lagS = this.#studio.bridges.probeSettings().find((p) => p.name === probe)?.lagS ?? null
    const setup = potSetup(pot, lagS, this.#studio.burners.beliefOf(pot.id, pot.vessel))
    return { kind: 'pot', atMs: this.#studio.clock.nowMs(), potId: pot.id, pot: setup }
  }

  async #write(
    noted: NotedEvent & { readonly atMs: number },
    batchId: number | null,
    stageId: string | null,
  ) {
    const { store, recorder, clock } = this.#studio
    const { potId, event, atMs, who } = noted
    const row = { atMs, notedMs: clock.nowMs(), potId, batchId, stageId, event, who }
    return recorder.write(() => store.events.add(row))
  }

  async #tell(inputs: readonly StoveInput[]): Promise<void> {
    await this.#studio.stove.refresh()
    await this.#studio.watching.note(...inputs)
    this.#studio.showStove()
  }
}
