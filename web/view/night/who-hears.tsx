import { useEffect, useState } from 'preact/hooks'
import { usePage, useWords } from '../page-context.ts'

interface WhoHearsAnswer {
  readonly pages: number
  readonly phones: readonly string[]
  readonly lamp: 'none' | 'connected' | 'away'
  readonly webhook: boolean
  readonly computer: { readonly kind: 'not-needed' | 'kept-awake' | 'may-sleep'; readonly why?: string }
}

interface TestAnswer {
  readonly answers: readonly { readonly device: string; readonly atMs: number }[]
}

const EVERY_MS = 5000

/** Who would hear an alarm now, and who answered the last test; asked again every five seconds. */
export function WhoHears() {
  const { w, f } = useWords()
  const { requests } = usePage()
  const [who, setWho] = useState<WhoHearsAnswer | null>(null)
  const [test, setTest] = useState<TestAnswer | null>(null)
  useEffect(() => {
    const look = async () => {
      const heard = await requests.ask<WhoHearsAnswer>('GET', '/api/who-hears')
      const tests = await requests.ask<readonly TestAnswer[]>('GET', '/api/test-alarms')
      setWho(heard.ok ? heard.value : null)
      setTest(tests.ok ? (tests.value.at(-1) ?? null) : null)
    }
    void look()
    const timer = setInterval(() => void look(), EVERY_MS)
    return () => clearInterval(timer)
  }, [])
  if (who === null) return null
  return (
    <section class="who-hears">
      <h2>{w.tell.whoHears}</h2>
      <ul>
        <li>{w.tell.pages(who.pages)}</li>
        <li>{who.phones.length === 0 ? w.tell.noPhone : w.tell.phones(who.phones.join(', '))}</li>
        <li>{w.tell.lamp[who.lamp]}</li>
        {who.webhook && <li>{w.tell.webhook}</li>}
      </ul>
      <p>
        {w.tell.computer[who.computer.kind]}
        {who.computer.why !== undefined && ` (${w.said(who.computer.why)})`}
      </p>
      {who.computer.kind === 'may-sleep' && (
        <details>
          <summary>{w.tell.keepAwake}</summary>
          <ul>
            {w.tell.keepAwakeOn.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      )}
      {test !== null && (
        <>
          <h2>{w.tell.answered}</h2>
          {test.answers.length === 0 && <p>{w.tell.nobodyAnswered}</p>}
          <ul>
            {test.answers.map((a) => (
              <li key={a.device}>{w.tell.answer(a.device, f.clock(a.atMs))}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  )
}
