/** Whether the screen stays on: `cannot` where the browser offers no wake lock (no secure address, old browser). */
export type Awake = 'on' | 'off' | 'cannot'

/**
 * Keeps the screen on until the answer is called. The lock is lost whenever the page is hidden, so it is
 * asked for again when the page comes back.
 */
export function keepAwake(changed: (awake: Awake) => void): () => void {
  if (!('wakeLock' in navigator)) {
    changed('cannot')
    return () => undefined
  }
  let lock: WakeLockSentinel | null = null
  let wanted = true

  async function take(): Promise<void> {
    if (!wanted || document.visibilityState !== 'visible') return
    try {
      lock = await navigator.wakeLock.request('screen')
      lock.addEventListener('release', () => changed('off'))
      changed('on')
    } catch {
      changed('off')
    }
  }
  const takeAgain = () => void take()
  document.addEventListener('visibilitychange', takeAgain)
  void take()
  return () => {
    wanted = false
    document.removeEventListener('visibilitychange', takeAgain)
    void lock?.release()
  }
}
