/** `cannot`: no secure address, or a browser without push. */
export type PushState = 'on' | 'off' | 'refused' | 'cannot'

const WORKER = '/push-worker.js'

const canPush = (): boolean =>
  globalThis.isSecureContext && 'serviceWorker' in navigator && 'PushManager' in globalThis

export async function pushState(): Promise<PushState> {
  if (!canPush()) return 'cannot'
  if (Notification.permission === 'denied') return 'refused'
  return (await subscribed()) === null ? 'off' : 'on'
}

async function subscribed(): Promise<PushSubscription | null> {
  const registration = await navigator.serviceWorker.getRegistration(WORKER)
  return (await registration?.pushManager.getSubscription()) ?? null
}

/** Must be called from a tap. `null`: the person or the browser said no. */
export async function askForPush(serverKey: string): Promise<PushSubscriptionJSON | null> {
  if (!canPush() || (await Notification.requestPermission()) !== 'granted') return null
  await navigator.serviceWorker.register(WORKER)
  const { pushManager } = await navigator.serviceWorker.ready
  try {
    const asked = await pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: serverKey })
    return asked.toJSON()
  } catch {
    // No push service can be reached, or a subscription with another server's key stands in the way.
    await (await pushManager.getSubscription())?.unsubscribe()
    return null
  }
}

/** This browser is not called any more; the server finds out at its next try and takes it off the list. */
export async function stopPush(): Promise<void> {
  await (await subscribed())?.unsubscribe()
}
