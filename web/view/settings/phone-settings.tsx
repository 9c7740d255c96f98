import { useEffect, useState } from 'preact/hooks'
import { type PushState, askForPush, pushState, stopPush } from '../../device/push.ts'
import { usePage, useWords } from '../page-context.ts'

interface PushAnswer {
  readonly publicKey: string | null
}

/** Lets this phone be called with the page closed. */
export function PhoneSettings() {
  const { w, f } = useWords()
  const { state, requests } = usePage()
  const [push, setPush] = useState<PushState>('off')
  const [problem, setProblem] = useState<string | null>(null)
  useEffect(() => void pushState().then(setPush), [])
  const ask = async () => {
    const server = await requests.ask<PushAnswer>('GET', '/api/push')
    if (!server.ok) return setProblem(server.why)
    if (server.value.publicKey === null) return setProblem(w.tell.pushOffOnServer)
    const subscription = await askForPush(server.value.publicKey)
    if (subscription === null) return setProblem(w.tell.pushFailed)
    const title = state.settings.value.who || w.tell.somePage
    const added = await requests.ask('POST', '/api/push/phones', {
      subscription,
      title,
      person: f.person,
    })
    setProblem(added.ok ? null : added.why)
    if (!added.ok) await stopPush()
    setPush(await pushState())
  }
  const stop = async () => {
    await stopPush()
    setPush(await pushState())
  }
  return (
    <section class="form-part">
      <h2>{w.tell.push}</h2>
      <p>{w.tell.pushStates[push]}</p>
      {problem !== null && <p role="alert">{problem}</p>}
      {push === 'off' && (
        <button type="button" class="button" onClick={() => void ask()}>
          {w.tell.pushAsk}
        </button>
      )}
      {push === 'on' && (
        <button type="button" class="button" onClick={() => void stop()}>
          {w.tell.pushStop}
        </button>
      )}
    </section>
  )
}
