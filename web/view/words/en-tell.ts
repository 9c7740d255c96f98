/** Getting through to people: the test alarm, who would hear, push to this phone. */
export const enTell = {
  testStrip: 'Test alarm. Can you hear it?',
  heard: 'I hear it',
  somePage: 'a page',
  morning: 'What the night left',
  morningSpan: (from: string, to: string) => `From ${from} to ${to}.`,
  morningBatch: 'The batch',
  morningQuiet: 'Nothing asks for you.',
  wakeAt: 'My alarm clock rings at',
  liftAt: 'I lift goods under',
  wakeSave: 'Remember it',
  wakeHelp: 'Each bath that cools then says whether it will be cool enough by that time.',
  wakeSaved: 'Each bath that cools says whether it will be cool enough by then.',
  whoHears: 'Who would hear an alarm now',
  pages: (n: number) =>
    n === 0
      ? 'no open page with its sound on'
      : n === 1
        ? '1 open page with its sound on'
        : `${n} open pages with their sound on`,
  noPhone: 'no phone by push',
  phones: (names: string) => `by push: ${names}`,
  lamp: { none: 'no lamp', connected: 'the lamp', away: 'the lamp’s broker is away' },
  webhook: 'another program (webhook)',
  computer: {
    'not-needed': 'No burner is noted on, so the computer may sleep.',
    'kept-awake': 'The computer is kept from sleeping while a burner is noted on.',
    'may-sleep': 'The computer may fall asleep and then nobody watches.',
  },
  keepAwake: 'How to keep it awake',
  keepAwakeOn: [
    'Windows: Settings, System, Power: set sleep to Never while plugged in; for a laptop also choose that closing the lid does nothing.',
    'macOS: System Settings, Battery or Energy: prevent sleeping when the display is off. For one night, type in a terminal: caffeinate -s',
    'Linux: in the settings of the desktop, Power: switch automatic suspend off. For one night, type in a terminal: systemd-inhibit --what=sleep:idle:handle-lid-switch sleep 14h',
    'Everywhere: leave it plugged in and the lid open.',
  ],
  answered: 'Who answered the last test',
  nobodyAnswered: 'Nobody yet.',
  answer: (device: string, at: string) => `${device}, ${at}`,
  push: 'Call this phone',
  pushStates: {
    on: 'This phone is called when no page has sounded an alarm, also with the page closed.',
    off: 'This phone is not called while the page is closed.',
    refused: 'Notifications are refused in this browser’s settings, so it can’t be called.',
    cannot:
      'Not possible at this address or in this browser: push needs https, and on an iPhone the page on the home screen.',
  },
  pushOffOnServer: 'Push is switched off in the server’s settings.',
  pushFailed: 'The browser did not give its leave, or its push service can’t be reached.',
  pushAsk: 'Call this phone',
  pushStop: 'Don’t call this phone any more',
}
