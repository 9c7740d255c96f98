import { createHash } from 'node:crypto'
import { z } from 'zod'
import { doneAnswer, idText } from '#core/wire/api-fields'
import {
  heardBody,
  phoneAnswer,
  phoneBody,
  pushAnswer,
  testAlarmAnswer,
  webhookAnswer,
  whoHearsAnswer,
} from '#core/wire/api-telling'
import type { Phone } from '../../tell/phone.ts'
import type { TellDesk } from '../../tell/tell-desk.ts'
import type { WebPush } from '../../tell/web-push.ts'
import { TryLimit } from '../guard/try-limit.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ id: idText })
const phoneParams = z.strictObject({ id: z.string().regex(/^[0-9a-f]{16}$/, 'a phone’s id') })

/** Getting through to people: who would hear an alarm, the test alarm, phones, letters that were given up. */
export const tellingRoutes = (studio: Studio, desk: TellDesk): readonly Endpoint[] => [
  ...testRoutes(studio, desk),
  ...phoneRoutes(desk),
  endpoint({
    method: 'get',
    path: '/api/who-hears',
    summary: 'Who would hear an alarm now',
    answer: whoHearsAnswer,
    handle: async () => desk.ways.telling.whoHears(),
  }),
  endpoint({
    method: 'get',
    path: '/api/webhook',
    summary: 'Letters to the webhook that are waiting or were given up',
    answer: webhookAnswer,
    handle: async () => {
      const { webhook } = desk.ways
      const dead = webhook?.deadLetters ?? []
      return { isSet: webhook !== null, waiting: webhook?.waiting ?? 0, dead }
    },
  }),
]

function testRoutes(studio: Studio, desk: TellDesk): readonly Endpoint[] {
  // A test wakes people: a program that runs wild must not keep them awake.
  const tries = new TryLimit(6, 60_000)
  return [
    endpoint({
      method: 'get',
      path: '/api/test-alarms',
      summary: 'The test alarms of the last year and who answered, newest last',
      answer: z.array(testAlarmAnswer),
      handle: async () => desk.ways.testAlarm.tests,
    }),
    endpoint({
      method: 'post',
      path: '/api/test-alarms',
      summary: 'Sounds a test by every means',
      answer: testAlarmAnswer,
      status: 201,
      handle: async ({ from }) => {
        if (!tries.take(from, studio.clock.nowMs())) throw new Problem(429, 'too many tests; wait a minute')
        return desk.ways.testAlarm.start()
      },
    }),
    endpoint({
      method: 'post',
      path: '/api/test-alarms/:id/heard',
      summary: 'Somebody at this device has heard it',
      params,
      body: heardBody,
      answer: doneAnswer,
      handle: async ({ params: { id }, body }) => {
        const refused = await desk.ways.testAlarm.heard(id, body.device)
        if (refused !== null) throw new Problem(409, refused)
        return { ok: true }
      },
    }),
  ]
}

const phoneRoutes = (desk: TellDesk): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/push',
    summary: 'The key that a browser needs to ask for push, and the phones that asked',
    answer: pushAnswer,
    handle: async () => {
      const { push } = desk.ways
      return { publicKey: push?.publicKey ?? null, phones: (push?.phones ?? []).map(shown) }
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/push/phones',
    summary: 'Calls this phone from now on; one that is on the list is named anew',
    body: phoneBody,
    answer: phoneAnswer,
    status: 201,
    handle: async ({ body }) => {
      const push = pushOf(desk)
      const refused = await push.add(body.subscription, body.title, body.person ?? null)
      if (refused !== null) throw new Problem(409, refused)
      return shown(push.phones.at(-1)!)
    },
  }),
  endpoint({
    method: 'delete',
    path: '/api/push/phones/:id',
    summary: 'Takes a phone off the list',
    params: phoneParams,
    answer: doneAnswer,
    handle: async ({ params: { id } }) => {
      const push = pushOf(desk)
      const phone = push.phones.find((p) => idOf(p) === id)
      if (phone === undefined) throw notFound('such phone on the list')
      await push.remove(phone.subscription.endpoint)
      return { ok: true }
    },
  }),
]

function pushOf(desk: TellDesk): WebPush {
  const { push } = desk.ways
  if (push === null) throw new Problem(409, 'push is off; write "push": {} into the settings')
  return push
}

/** Whoever knows an endpoint can write to the phone, so only a hash of it is shown. */
const idOf = ({ subscription }: Phone): string =>
  createHash('sha256').update(subscription.endpoint).digest('hex').slice(0, 16)

const shown = (phone: Phone) => ({ id: idOf(phone), title: phone.title, addedMs: phone.addedMs })
