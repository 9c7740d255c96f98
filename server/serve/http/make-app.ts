import express, { type Express } from 'express'
import type { Logger } from 'pino'
import { healthOf, type Health } from '../health.ts'
import { guardApi, guardHttp } from '../guard/guard-http.ts'
import type { OwnNames } from '../guard/stranger.ts'
import { metricsText } from '../metrics.ts'
import { alarmRoutes } from '../routes/alarms.ts'
import { batchRoutes } from '../routes/batches.ts'
import { bridgeRoutes } from '../routes/bridge.ts'
import { burnerRoutes } from '../routes/burner.ts'
import { classRoutes } from '../routes/class.ts'
import { entryRoutes } from '../routes/entries.ts'
import { lookUpRoutes } from '../routes/look-up.ts'
import { photoRoutes } from '../routes/photos.ts'
import { planRoutes } from '../routes/plans.ts'
import { potRoutes } from '../routes/pots.ts'
import { probeSettingRoutes } from '../routes/probe-settings.ts'
import { probeRoutes } from '../routes/probes.ts'
import { recordRoutes } from '../routes/record.ts'
import { reportRoutes } from '../routes/reports.ts'
import { stockRoutes } from '../routes/stock.ts'
import { readingRoutes } from '../routes/readings.ts'
import { systemRoutes } from '../routes/system.ts'
import { StoveKeeper } from '../stove-keeper.ts'
import type { Studio } from '../studio.ts'
import type { Endpoint } from './endpoint.ts'
import { readBodies } from './media-type.ts'
import { mount } from './mount.ts'
import { openApi } from './openapi.ts'
import { answerErrors, notFound, Problem } from './problem.ts'
import { staticPage } from './static-page.ts'

export interface AppParts {
  readonly own: () => OwnNames
  readonly log: Logger
  readonly integrity: () => Health['integrity']
  readonly pages: () => number
  /** Folder of the built page. */
  readonly web: string
  /** Endpoints that other rooms add. */
  readonly more: readonly Endpoint[]
}

/** Every address of the server. */
export function makeApp(studio: Studio, parts: AppParts): Express {
  const app = express()
  app.disable('x-powered-by')
  app.set('query parser', 'simple')
  app.use(guardHttp(parts.own))
  app.get('/healthz', (_request, response) => {
    const health = healthOf(studio, parts.integrity())
    response
      .set('Cache-Control', 'no-store')
      .status(health.ok ? 200 : 503)
      .json(health)
  })
  app.use(['/api', '/metrics'], guardApi(studio.access, studio.clock))
  app.use(...readBodies())
  app.get('/metrics', (_request, response) => {
    const type = 'application/openmetrics-text; version=1.0.0; charset=utf-8'
    response
      .set('Content-Type', type)
      .set('Cache-Control', 'no-store')
      .send(metricsText(studio, parts.pages()))
  })
  const endpoints = [...allEndpoints(studio), ...parts.more]
  const description = openApi(endpoints, studio.version)
  app.get('/api/openapi.json', (_request, response) => void response.json(description))
  mount(app, endpoints)
  app.use('/api', (request) => {
    throw notFound(`address ${request.originalUrl.split('?')[0]!.slice(0, 200)}`)
  })
  app.use('/socket.io', () => {
    throw new Problem(426, 'this address takes websockets alone; ask for the transport "websocket"')
  })
  app.use(...staticPage(parts.web))
  app.use(() => {
    throw notFound('such page')
  })
  app.use(answerErrors((error, id) => parts.log.error({ err: error, id }, 'a request failed')))
  return app
}

function allEndpoints(studio: Studio): readonly Endpoint[] {
  const keeper = new StoveKeeper(studio)
  return [
    ...readingRoutes(studio),
    ...probeRoutes(studio),
    ...probeSettingRoutes(studio, keeper),
    ...bridgeRoutes(studio),
    ...potRoutes(studio, keeper),
    ...burnerRoutes(studio),
    ...planRoutes(studio),
    ...batchRoutes(studio, keeper),
    ...entryRoutes(studio, keeper),
    ...recordRoutes(studio, keeper),
    ...lookUpRoutes(studio),
    ...stockRoutes(studio),
    ...classRoutes(studio, keeper),
    ...photoRoutes(studio),
    ...reportRoutes(studio),
    ...alarmRoutes(studio),
    ...systemRoutes(studio),
  ]
}
