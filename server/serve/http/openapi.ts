import { z } from 'zod'
import type { Endpoint } from './endpoint.ts'

/** The OpenAPI 3.1 description of the endpoints, from the schemas that check them. */
export function openApi(endpoints: readonly Endpoint[], version: string): object {
  const paths: Record<string, Record<string, object>> = {}
  for (const e of endpoints) {
    const path = e.path.replaceAll(/:(\w+)/g, '{$1}')
    paths[path] = { ...paths[path], [e.method]: operation(e) }
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'Holdfast',
      version,
      description: 'Watches a dyer’s heated baths and keeps their record.',
    },
    paths,
    components: {
      schemas: { Problem: PROBLEM },
      securitySchemes: { key: { type: 'http', scheme: 'bearer' } },
    },
    security: [{}, { key: [] }],
  }
}

function operation(e: Endpoint): object {
  const status = String(e.status ?? 200)
  return {
    operationId: `${e.method} ${e.path}`,
    summary: e.summary,
    parameters: [...parameters(e.params, 'path'), ...parameters(e.query, 'query')],
    ...(e.body === undefined ? {} : { requestBody: { required: true, content: bodyContent(e) } }),
    responses: {
      [status]: {
        description: 'Done',
        content: answerContent(e),
      },
      default: {
        description: 'Refused, with one sentence that says why',
        content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
      },
    },
  }
}

const answerContent = ({ answer, answerTypes = ['application/json'] }: Endpoint): object =>
  Object.fromEntries(answerTypes.map((type) => [type, { schema: jsonSchema(answer, 'output') }]))

const bodyContent = (e: Endpoint): object => ({
  [e.path === '/api/readings' ? 'application/senml+json' : 'application/json']: {
    schema: jsonSchema(e.body!, 'input'),
  },
})

function parameters(schema: z.ZodType | undefined, place: 'path' | 'query'): readonly object[] {
  if (schema === undefined) return []
  const { properties = {}, required = [] } = jsonSchema(schema, 'input') as {
    properties?: Record<string, object>
    required?: string[]
  }
  return Object.entries(properties).map(([name, property]) => ({
    name,
    in: place,
    required: place === 'path' || required.includes(name),
    schema: property,
  }))
}

/** `$schema` stands once in the document's head in OpenAPI 3.1, not in every part. */
function jsonSchema(schema: z.ZodType, io: 'input' | 'output'): object {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io, unrepresentable: 'any' })
  return rest
}

/** RFC 9457 §3. */
const PROBLEM = {
  type: 'object',
  required: ['type', 'title', 'status', 'detail'],
  properties: {
    type: { type: 'string' },
    title: { type: 'string' },
    status: { type: 'integer' },
    detail: { type: 'string', description: 'one sentence: what was found and what is allowed' },
  },
}
