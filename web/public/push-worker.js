/** Shows what the server pushes to this phone while no page is open. */

self.addEventListener('push', (event) => {
  const message = event.data?.json() ?? {}
  const { kind, tag, title, body, path, isUrgent, device } = message
  event.waitUntil(
    self.registration.showNotification(title ?? 'Holdfast', {
      body: body ?? '',
      tag: tag ?? 'holdfast',
      // A later word about the same alarm must be heard too, but not that it is over.
      renotify: kind !== 'hush',
      silent: kind === 'hush',
      requireInteraction: isUrgent === true,
      data: { kind, path: path ?? '/', device },
    }),
  )
})

self.addEventListener('notificationclick', (event) => {
  event.notification.close()
  const { kind, path, device } = event.notification.data ?? {}
  event.waitUntil(Promise.all([kind === 'test' ? tellHeard(path, device) : undefined, openPage(path ?? '/')]))
})

/** A tap on the test alarm is the answer: somebody heard this phone. */
function tellHeard(path, device) {
  const testId = new URL(path, self.location.origin).searchParams.get('heardTest')
  return fetch(`/api/test-alarms/${testId}/heard`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ device: device ?? 'a phone, by push' }),
  })
}

async function openPage(path) {
  const pages = await self.clients.matchAll({ type: 'window' })
  const [page] = pages
  if (page === undefined) return self.clients.openWindow(path)
  await page.navigate(path).catch(() => undefined)
  return page.focus()
}
