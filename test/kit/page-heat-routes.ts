import type { Router } from 'express'
import { guessPot } from '#core/bath/pot-belief'
import { mixingAsk, whatIfAsk } from '#core/wire/api-burner'
import type { BurnerPage, EveningAnswer } from '#core/wire/burner'
import type { PotRecord } from '#core/wire/records'
import { burnerPhysics } from '../../server/serve/heat/burner-page.ts'
import { mixInto } from '../../server/serve/heat/mixing.ts'
import { whatIf } from '../../server/serve/heat/what-if.ts'

/** The burners of the made-up pots: the handbook's guess, with an invented record beside it. */
export function heatRoutes(router: Router, potOf: (id: string) => PotRecord | null): void {
  const beliefOf = (id: string) => guessPot(potOf(id)!.vessel!)
  router.get('/pots/:id/burner', (q, a) => void a.json(madeUpBurner(potOf(q.params.id)!)))
  router.post('/pots/:id/what-if', (q, a) => {
    a.json(whatIf(beliefOf(q.params.id), true, whatIfAsk.parse(q.body)))
  })
  router.post('/pots/:id/mixing', (q, a) => {
    const ask = mixingAsk.parse(q.body)
    a.json(mixInto(beliefOf(q.params.id), ask.bathC ?? 70, ask))
  })
  router.get('/pots/:id/forecast', (_q, a) => {
    const atMs = Date.now()
    const path = Array.from({ length: 37 }, (_, i) => [atMs + i * 300_000, 70, 69.5 - i / 30, 70.5 + i / 30])
    a.json({ atMs, path })
  })
  router.get('/pots/:id/evening', (q, a) => void a.json(madeUpEvening(q.params.id)))
}

function madeUpBurner(pot: PotRecord): BurnerPage {
  const atMs = Date.now() - 86_400_000
  return {
    pot: { id: pot.id, title: pot.title, vessel: pot.vessel!, probe: pot.probe },
    isGuess: true,
    ...burnerPhysics(guessPot(pot.vessel!)),
    traces: [
      {
        batchId: 2,
        title: 'Marl, lot 12',
        fromMs: atMs,
        toMs: atMs + 9_000_000,
        litres: 20,
        misfitC: 0.2,
        lid: 'judged-on',
        why: 'learned',
      },
    ],
    record: [
      {
        kind: 'peak',
        batchId: 2,
        stageId: 'dye',
        madeMs: atMs + 3_000_000,
        told: 71.2,
        low90: 70.1,
        high90: 72.3,
        came: 70.8,
        isGuess: false,
        source: 'live',
      },
    ],
    burnerChangesMs: [atMs],
    energy: [{ batchId: 2, title: 'Marl, lot 12', kWh: 2.1, fromNameplate: true, cost: 0.84 }],
  }
}

const madeUpEvening = (potId: string): EveningAnswer => ({
  potId,
  tempC: 41.3,
  lastDoneMs: null,
  cannot: null,
  running: {
    startedMs: Date.now() - 1_200_000,
    step: 'middle',
    set: { dial: 5.5, lid: 'on' },
    noted: { dial: 10, lid: 'on' },
    isSet: potId !== 'heron',
    leftMin: 22,
    isEnough: false,
    stepsDone: 1,
    stepsInAll: 5,
  },
})
