/** `cannot`: no secure address, or a browser without notifications. */
export type NotifyState = 'allowed' | 'refused' | 'not-asked' | 'cannot'

export function notifyState(): NotifyState {
  if (!('Notification' in globalThis) || !globalThis.isSecureContext) return 'cannot'
  switch (Notification.permission) {
    case 'granted':
      return 'allowed'
    case 'denied':
      return 'refused'
    default:
      return 'not-asked'
  }
}

/** Must be called from a tap. */
export async function askToNotify(): Promise<NotifyState> {
  if (notifyState() === 'not-asked') await Notification.requestPermission()
  return notifyState()
}

/** Shows a notification while nobody looks at the page; the same `tag` takes the place of the one before. */
export function notify(title: string, body: string, tag: string): void {
  if (notifyState() !== 'allowed' || document.visibilityState === 'visible') return
  try {
    const shown = new Notification(title, { body, tag, requireInteraction: true })
    shown.addEventListener('click', () => globalThis.focus())
  } catch {
    // Some phones allow notifications only from a service worker: the sound and the page still tell.
  }
}
