import { useEffect, useRef } from 'preact/hooks'
import { type Route, routeHref } from '../../state/route.ts'
import { BatchPage } from '../batch/batch-page.tsx'
import { MorningPage } from '../night/morning-page.tsx'
import { BurnerPageView } from '../heat/burner-page.tsx'
import { EveningPage } from '../heat/evening-page.tsx'
import { WhatIfPage } from '../heat/what-if-page.tsx'
import { NightPage } from '../night/night-page.tsx'
import { usePage, useWords } from '../page-context.ts'
import { PlanList } from '../plan/plan-list.tsx'
import { PlanPage } from '../plan/plan-page.tsx'
import { BeginBatch } from '../plan/begin-batch.tsx'
import { StartBatch } from '../plan/start-batch.tsx'
import { ProbesPage } from '../probe/probes-page.tsx'
import { ClassPage } from '../record/class-page.tsx'
import { ComparePage } from '../record/compare-page.tsx'
import { DiffersPage } from '../record/differs-page.tsx'
import { FindPage } from '../record/find-page.tsx'
import { RecordPage } from '../record/record-page.tsx'
import { RepeatPage } from '../record/repeat-page.tsx'
import { ShadesPage } from '../record/shades-page.tsx'
import { StockPage } from '../record/stock-page.tsx'
import { WeighPage } from '../record/weigh-page.tsx'
import { SettingsPage } from '../settings/settings-page.tsx'
import { PotPage } from '../stove/pot-page.tsx'
import { StovePage } from '../stove/stove-page.tsx'
import { AlarmStrip } from './alarm-strip.tsx'
import { LogIn } from './log-in.tsx'
import { SilenceFrame } from './silence-frame.tsx'
import { TestStrip } from './test-strip.tsx'
import { TopBar } from './top-bar.tsx'

/** The frame that stands around every page. */
export function App() {
  const { w } = useWords()
  const { state } = usePage()
  const route = state.route.value
  const main = useRef<HTMLElement>(null)
  const path = routeHref(route)
  const shown = useRef(path)
  useEffect(() => {
    // Only when the page changes: when it is opened, the keyboard begins at the top.
    if (shown.current === path) return
    shown.current = path
    main.current?.focus({ preventScroll: true })
    globalThis.scrollTo(0, 0)
  }, [path])
  if (state.locked.value) return <LogIn />
  return (
    <>
      <a class="skip" href="#main" onClick={(e) => (e.preventDefault(), main.current?.focus())}>
        {w.shell.skip}
      </a>
      <SilenceFrame />
      {route.kind !== 'night' && <TopBar />}
      <AlarmStrip />
      <TestStrip />
      <main id="main" class={`page page-${route.kind}`} tabIndex={-1} ref={main}>
        <PageFor route={route} />
      </main>
    </>
  )
}

function PageFor({ route }: { readonly route: Route }) {
  const { w } = useWords()
  switch (route.kind) {
    case 'stove':
      return <StovePage />
    case 'pot':
      return <PotPage potId={route.potId} />
    case 'burner':
      return <BurnerPageView key={route.potId} potId={route.potId} />
    case 'what-if':
      return <WhatIfPage key={route.potId} potId={route.potId} />
    case 'evening':
      return <EveningPage key={route.potId} potId={route.potId} />
    case 'batches':
      return <FindPage key="all" facet={null} />
    case 'find':
      return <FindPage key={route.facet} facet={route.facet} />
    case 'batch':
      return <BatchPage batchId={route.batchId} />
    case 'weigh':
      return <WeighPage batchId={route.batchId} />
    case 'record':
      return <RecordPage batchId={route.batchId} />
    case 'repeat':
      return <RepeatPage key={route.batchId} batchId={route.batchId} />
    case 'differs':
      return <DiffersPage batchId={route.batchId} fromId={route.fromId} />
    case 'compare':
      return <ComparePage ids={route.ids} />
    case 'stock':
      return <StockPage />
    case 'shades':
      return <ShadesPage />
    case 'class':
      return <ClassPage />
    case 'plans':
      return <PlanList />
    case 'plan':
      return <PlanPage key={String(route.planId)} planId={route.planId} />
    case 'start-batch':
      return <StartBatch planId={route.planId} />
    case 'begin-batch':
      return <BeginBatch batchId={route.batchId} />
    case 'probes':
      return <ProbesPage />
    case 'night':
      return <NightPage />
    case 'morning':
      return <MorningPage />
    case 'settings':
      return <SettingsPage />
    case 'unknown':
      return (
        <section class="narrow">
          <h1>{w.shell.missing(route.path)}</h1>
          <a class="button" href="#/">
            {w.shell.backToStove}
          </a>
        </section>
      )
    default:
      return route satisfies never
  }
}
