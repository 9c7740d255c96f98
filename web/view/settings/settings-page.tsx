import { useState } from 'preact/hooks'
import { askToNotify, notifyState } from '../../device/notify.ts'
import { RHYTHMS, type RhythmName } from '../../device/rhythms.ts'
import { LANGUAGE_CHOICES, WHO_LENGTH } from '../../state/device-settings.ts'
import { Choice } from '../part/choice.tsx'
import { Field, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { PhoneSettings } from './phone-settings.tsx'
import { SoundSwitch } from '../shell/sound-switch.tsx'

/** How this device shows and sounds things; nothing here changes what other people see. */
export function SettingsPage() {
  const { w, f } = useWords()
  const { state, acts } = usePage()
  const settings = state.settings.value
  return (
    <form class="narrow form" onSubmit={(e) => e.preventDefault()}>
      <h1>{w.shell.settingsTitle}</h1>
      <p>{w.shell.settingsHelp}</p>
      <Choice
        label={w.shell.unit}
        value={settings.unit}
        options={[
          ['C', w.shell.celsius],
          ['F', w.shell.fahrenheit],
        ]}
        onValue={(unit) => acts.changeSettings({ unit })}
      />
      <Choice
        label={w.shell.weights}
        value={settings.weights}
        options={[
          ['metric', w.shell.metric],
          ['us', w.shell.us],
        ]}
        onValue={(weights) => acts.changeSettings({ weights })}
      />
      <p class="hint">{w.shell.money(f.moneyUnit)}</p>
      <TextField
        label={w.shell.who}
        help={w.shell.whoHelp}
        value={settings.who}
        maxLength={WHO_LENGTH}
        onValue={(who) => acts.changeSettings({ who: who.trimStart() })}
      />
      <SoundSettings />
      <NotifySettings />
      <PhoneSettings />
      <Choice
        label={w.shell.theme}
        value={settings.theme}
        options={[
          ['as-device', w.shell.themes['as-device']],
          ['light', w.shell.themes.light],
          ['dark', w.shell.themes.dark],
        ]}
        onValue={(theme) => acts.changeSettings({ theme })}
      />
      <Choice
        label={w.shell.language}
        value={settings.language}
        options={LANGUAGE_CHOICES.filter((c) => c !== 'pseudo' || settings.language === 'pseudo').map(
          (choice) => [choice, w.shell.languages[choice]] as const,
        )}
        onValue={(language) => acts.changeSettings({ language })}
      />
    </form>
  )
}

function SoundSettings() {
  const { w } = useWords()
  const { state, acts } = usePage()
  return (
    <section class="form-part">
      <h2>{w.shell.sound}</h2>
      <SoundSwitch />
      <Field label={w.shell.loudness} help={w.shell.loudnessHelp}>
        {(tied) => (
          <input
            {...tied}
            type="range"
            min={5}
            max={100}
            step={5}
            value={Math.round(state.settings.value.loudness01 * 100)}
            onInput={(e) => acts.changeSettings({ loudness01: Number(e.currentTarget.value) / 100 })}
          />
        )}
      </Field>
      <ul class="rhythms">
        {(Object.keys(RHYTHMS) as RhythmName[]).map((rhythm) => (
          <li key={rhythm}>
            <span>{w.shell.rhythms[rhythm]}</span>
            <button
              type="button"
              class="button"
              disabled={!state.soundOn.value}
              aria-label={`${w.shell.tryRhythm}: ${w.shell.rhythms[rhythm]}`}
              onClick={() => acts.tryRhythm(rhythm)}
            >
              {w.shell.tryRhythm}
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}

function NotifySettings() {
  const { w } = useWords()
  const [notify, setNotify] = useState(notifyState)
  return (
    <section class="form-part">
      <h2>{w.shell.notify}</h2>
      <p>{w.shell.notifyStates[notify]}</p>
      {notify === 'not-asked' && (
        <button type="button" class="button" onClick={() => void askToNotify().then(setNotify)}>
          {w.shell.notifyAsk}
        </button>
      )}
    </section>
  )
}
