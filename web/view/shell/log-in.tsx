import { useState } from 'preact/hooks'
import { LOG_IN_PATH } from '../../state/requests.ts'
import { Field } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'

/** Before anything else where the server has a passphrase; the session is a cookie, so the page starts anew. */
export function LogIn() {
  const { w } = useWords()
  const { requests } = usePage()
  const [passphrase, setPassphrase] = useState('')
  const [refusal, setRefusal] = useState<string | undefined>()
  async function logIn(): Promise<void> {
    const done = await requests.ask('POST', LOG_IN_PATH, { passphrase })
    if (done.ok) location.reload()
    else setRefusal(w.shell.failed(done.why))
  }
  return (
    <main class="page">
      <form
        class="narrow form"
        onSubmit={(e) => {
          e.preventDefault()
          void logIn()
        }}
      >
        <h1>{w.shell.logInTitle}</h1>
        <Field label={w.shell.passphrase} help={w.shell.logInHelp} error={refusal}>
          {(tied) => (
            <input
              {...tied}
              type="password"
              autocomplete="current-password"
              value={passphrase}
              onInput={(e) => setPassphrase(e.currentTarget.value)}
            />
          )}
        </Field>
        <div class="buttons">
          <button type="submit" class="button main">
            {w.shell.logIn}
          </button>
        </div>
      </form>
    </main>
  )
}
