import Database from 'better-sqlite3'

const READINGS = 10_000
/** The newest few have whole nights: 12 h at a reading a second. */
const LONG = 8
export const LONG_READINGS = 43_200
export const T0 = Date.UTC(2021, 0, 4, 8)
const DYES = ['madder', 'weld', 'cochineal', 'walnut hull', 'onion skins', 'logwood', 'cutch', 'indigo']
const FIBRES = ['wool', 'silk', 'linen', 'cotton']
const WORDS = [
  'rose',
  'brick',
  'lemon',
  'moss',
  'plum',
  'sand',
  'rust',
  'smoke',
  'clay',
  'fern',
  'storm',
  'straw',
]
export const POTS = ['wren', 'heron', 'otter', 'finch']

/** An empty studio's database with `batches` ended batches, each with its readings and the minutes made of them. */
export function fillDatabase(file: string, batches: number): void {
  const db = new Database(file)
  db.pragma('synchronous = OFF')
  for (const [i, pot] of POTS.entries()) {
    db.prepare('insert into pot (id, title) values (?, ?)').run(pot, pot)
    db.prepare('insert into probe (id, name, first_seen_ms, accepted) values (?, ?, ?, 1)').run(
      i + 1,
      pot,
      T0,
    )
  }
  const addPlan = db.prepare('insert into plan default values')
  const addVersion = db.prepare('insert into plan_version values (?, 1, ?, ?)')
  DYES.forEach((dye, d) => {
    addPlan.run()
    addVersion.run(d + 1, T0, JSON.stringify(planOf(dye, FIBRES[d % FIBRES.length]!)))
  })
  for (let from = 0; from < batches; from += 100)
    db.transaction(() => {
      for (let n = from; n < Math.min(batches, from + 100); n += 1) addBatch(db, n, batches)
    })()
  db.close()
}

const planOf = (dye: string, fibre: string) => ({
  title: `${dye} on ${fibre}`,
  fibre,
  stages: [
    {
      id: 'dye',
      title: 'Dye bath',
      kind: 'hold',
      windowC: [70, 80],
      ceilingC: 85,
      holdMin: 60,
      goods: true,
      additives: [{ name: dye, percentWof: 40 }],
    },
    { id: 'cool', title: 'Cool', kind: 'cool', coolToC: 38, additives: [] },
  ],
})

function addBatch(db: Database.Database, n: number, batches: number): void {
  const count = n >= batches - LONG ? LONG_READINGS : READINGS
  const pot = n % POTS.length
  const startMs = T0 + Math.floor(n / POTS.length) * 86_400_000
  const dyeEndMs = startMs + Math.min(count, 9000) * 1000
  const dye = n % DYES.length
  const title = `${WORDS[n % 12]} ${WORDS[(n * 7) % 12]} number ${n}`
  db.prepare(
    `insert into batch (title, plan_id, plan_version, dry_weight_g, made_ms, state, pot_id) values (?, ?, 1, 500, ?, 'ended', ?)`,
  ).run(title, dye + 1, startMs, POTS[pot])
  const run = db.prepare(
    'insert into stage_run (batch_id, stage_id, pot_id, probe, started_ms, ended_ms) values (?, ?, ?, ?, ?, ?)',
  )
  run.run(n + 1, 'dye', POTS[pot], POTS[pot], startMs, dyeEndMs)
  run.run(n + 1, 'cool', POTS[pot], POTS[pot], dyeEndMs, startMs + count * 1000)
  const entry = db.prepare(
    `insert into entry (batch_id, at_ms, noted_ms, who, kind, body) values (?, ?, ?, 'Ash', ?, ?)`,
  )
  const lot = `R-${Math.floor(n / 40)}`
  const weighing = { stageId: 'dye', additive: DYES[dye], weighedG: 200, lot }
  const result = {
    words: `${WORDS[(n * 5) % 12]}, even`,
    lab: { lightness: 30 + (n % 50), a: n % 60, b: n % 40 },
  }
  entry.run(n + 1, startMs, startMs, 'weighing', JSON.stringify(weighing))
  entry.run(n + 1, startMs, startMs, 'result', JSON.stringify(result))
  addReadings(db, pot + 1, startMs, count)
}

function addReadings(db: Database.Database, probeId: number, startMs: number, count: number): void {
  const tempC = 'round(case when s < 3000 then 20 + s * 0.0185 else 75 + (s % 97) / 50.0 end, 2)'
  db.prepare(
    `with recursive t (s) as (values (0) union all select s + 1 from t where s + 1 < ?)
     insert into reading (probe_id, at_ms, nth, raw_c, verdict) select ?, ? + s * 1000, 0, ${tempC}, 0 from t`,
  ).run(count, probeId, startMs)
  db.prepare(
    `with recursive m (s) as (values (0) union all select s + 60 from m where s + 60 < ?)
     insert into minute select ?, (? + s * 1000) / 60000, ${tempC}, ? + s * 1000, ${tempC} + 0.5, ? + s * 1000 + 30000 from m`,
  ).run(count, probeId, startMs, startMs, startMs)
}
