import { expect, test } from 'vitest'
import { pushSubscription, webhookSettings } from '#core/wire/tell-settings'

const secret = `whsec_${'A'.repeat(32)}`
const isTaken = (url: string) => webhookSettings.safeParse({ url, secret }).success

// RFC 1918: 10/8, 172.16/12 and 192.168/16 are private; RFC 3927: 169.254/16 is the link's own; RFC 4193: fc00::/7.
test('plain http is for loopback, private addresses and names that no public name server knows', () => {
  const home = [
    'http://127.0.0.1:8080/dye',
    'http://10.1.2.3/',
    'http://172.16.0.1/',
    'http://172.31.255.254/',
    'http://192.168.1.20/',
    'http://169.254.7.7/',
    'http://[::1]/',
    'http://[fd12:3456::1]/',
    'http://lamp.local/',
    'http://lamp/',
  ]
  const away = [
    'http://172.15.255.254/',
    'http://172.32.0.1/',
    'http://192.169.1.20/',
    'http://11.1.2.3/',
    'http://[2001:db8::1]/',
    'http://hooks.example.com/',
  ]
  expect(home.filter((url) => !isTaken(url))).toEqual([])
  expect(away.filter(isTaken)).toEqual([])
  expect(isTaken('https://hooks.example.com/dye')).toBe(true)
})

// RFC 8291 §3: a point of P-256 is 65 bytes, the secret 16.
test('nobody may call a computer of the house a push service', () => {
  const keys = { p256dh: `B${'A'.repeat(86)}`, auth: 'A'.repeat(22) }
  const endpoints = [
    'https://192.168.1.1/push',
    'https://172.20.0.1/',
    'https://lamp.local/',
    'http://push.example/',
  ]
  const isSubscription = (endpoint: string) => pushSubscription.safeParse({ endpoint, keys }).success
  expect(endpoints.filter(isSubscription)).toEqual([])
  expect(isSubscription('https://push.example/send/1')).toBe(true)
})
