import { execFileSync, spawn } from 'node:child_process'
import { chmodSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { buildProgram, Program } from '../../kit/program.ts'
import { watchSlowness } from '../../kit/slowness.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

const ROOT = join(import.meta.dirname, '../../..')

interface Ended {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

/** A command that is expected to end by itself. */
function holdfast(args: readonly string[], more: Record<string, string> = {}, user?: number): Promise<Ended> {
  return new Promise((resolve) => {
    const started = spawn(process.execPath, [join(ROOT, 'server/commands/holdfast.js'), ...args], {
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, ...more },
      ...(user === undefined ? {} : { uid: user, gid: user }),
    })
    let out = ''
    let err = ''
    started.stdout.setEncoding('utf8').on('data', (text: string) => (out += text))
    started.stderr.setEncoding('utf8').on('data', (text: string) => (err += text))
    started.once('close', (code) => resolve({ code, out, err }))
  })
}

const serve = (data: string, ...more: string[]) => [
  'serve',
  '--data',
  data,
  '--port',
  '0',
  '--no-bridge',
  ...more,
]

test('a byte order mark at the head of the settings is passed over (RFC 8259 §8.1)', async () => {
  const data = tempFolder()
  writeFileSync(join(data, 'holdfast.json'), '\uFEFF{ "prt": 1 }')
  const { err } = await holdfast(serve(data))
  expect(err).toBe('holdfast: holdfast.json: the field "prt" is not known; the nearest known one is "port"\n')
})

test('a used port ends with exit code 2 and one line that names it and what to do', async () => {
  const taken = createServer()
  await new Promise<void>((resolve) => taken.listen(0, '127.0.0.1', resolve))
  onTestFinished(() => void taken.close())
  const port = String((taken.address() as { port: number }).port)
  const { code, out, err } = await holdfast([...serve(tempFolder()), '--port', port])
  expect([code, out]).toEqual([2, ''])
  expect(err).toBe(
    `holdfast: port ${port} on 127.0.0.1 is in use; perhaps Holdfast runs already: end the program that has it, ` +
      'or choose another with --port (0 takes a free one)\n',
  )
})

test.each([
  ['a flag', ['--prot', '1'], {}, 'there is no flag --prot; the nearest one is --port'],
  ['a flag’s value', ['--port', 'abc'], {}, 'holdfast: --port is "abc"; allowed is a number\n'],
  [
    'a variable',
    [],
    { HOLDFAST_PROT: '1' },
    'the variable HOLDFAST_PROT is not known; the nearest known one is HOLDFAST_PORT',
  ],
  ['a language', ['--language', 'xx'], {}, '--language is "xx"; allowed are en and de, also with a region'],
  ['an open door', ['--host', '0.0.0.0'], {}, 'neither "key" nor "passphrase" is set'],
])('%s that is wrong ends with exit code 2 and one line', async (_what, flags, variables, sentence) => {
  const { code, out, err } = await holdfast(serve(tempFolder(), ...flags), variables)
  expect([code, out, err.trimEnd().split('\n').length]).toEqual([2, '', 1])
  expect(err).toContain(sentence)
})

test('a settings file with a typo ends with exit code 2 and the nearest field', async () => {
  const data = tempFolder()
  writeFileSync(join(data, 'holdfast.json'), '{ "probes": [{ "name": "heron", "kind": "serial-linse" }] }')
  const { code, err } = await holdfast(serve(data))
  expect(code).toBe(2)
  expect(err).toMatch(/^holdfast: holdfast\.json: .*"serial-linse".*"serial-lines".*\n$/)
  writeFileSync(join(data, 'holdfast.json'), '{ "port": 1, }')
  expect((await holdfast(serve(data))).err).toMatch(/^holdfast: holdfast\.json is not JSON: .+\n$/)
})

test('a folder below /proc, where nothing can be made, ends with exit code 2 and its name', async () => {
  const { code, err } = await holdfast(serve('/proc/holdfast/data'))
  expect([code, err]).toEqual([
    2,
    "holdfast: the data folder /proc/holdfast/data can't be written to (ENOENT); it must be a folder that this user may write\n",
  ])
})

test('a folder that may not be written to ends with exit code 2 and its name', async () => {
  const outer = tempFolder()
  chmodSync(outer, 0o755)
  const data = join(outer, 'data')
  mkdirSync(data)
  chmodSync(data, 0o555)
  // Root may write anywhere, so somebody else tries.
  const somebody = process.getuid?.() === 0 ? 65_534 : undefined
  const { code, err } = await holdfast(serve(data), {}, somebody)
  chmodSync(data, 0o755)
  expect(code).toBe(2)
  expect(err).toContain(`the data folder ${data} can't be written to (EACCES)`)
})

test('one ready line is all that standard output gets, and a second server on the folder is refused', async () => {
  const data = tempFolder()
  const server = new Program(serve(data))
  onTestFinished(() => server.stop('SIGKILL'))
  await server.start(/ready http:\/\/127\.0\.0\.1:\d+\n/)
  const second = await holdfast(serve(data))
  expect(second.code).toBe(2)
  expect(second.err).toMatch(/is in use by a server that runs at http:\/\/127\.0\.0\.1:\d+; end it/)
  const slowness = watchSlowness()
  const startMs = Date.now()
  await server.stop('SIGTERM')
  expect(Date.now() - startMs).toBeLessThan(5000 * slowness())
  expect(readdirSync(data)).toEqual(['holdfast.db'])
})

test('the bridge comes and goes with the server, and comes again when it dies', async () => {
  const data = tempFolder()
  const probe = {
    name: 'heron',
    kind: 'simulated',
    vessel: { litres: 20, burner: { dialMax: 10 } },
    startC: 60,
  }
  writeFileSync(join(data, 'holdfast.json'), JSON.stringify({ probes: [probe] }))
  const server = new Program(['serve', '--data', data, '--port', '0'])
  onTestFinished(() => server.stop('SIGKILL'))
  await server.start(/ready (\S+)\n/)
  const url = /ready (\S+)/.exec(server.output)![1]!
  const age = async () =>
    ((await (await fetch(`${url}/api/probes`)).json()) as { ageMs: number }[])[0]?.ageMs ?? Infinity
  await expect.poll(age).toBeLessThan(3000)
  const bridges = () =>
    execFileSync('ps', ['-eo', 'pid,args'], { encoding: 'utf8' })
      .split('\n')
      .filter((line) => line.includes(' bridge ') && line.includes(data))
      .map((line) => Number(line.trim().split(' ')[0]))
  const [first] = bridges()
  process.kill(first!, 'SIGKILL')
  await expect.poll(() => bridges().some((pid) => pid !== first)).toBe(true)
  await expect.poll(age).toBeLessThan(3000)
  await server.stop('SIGTERM')
  expect(bridges()).toEqual([])
})

test('a settings file that becomes wrong while running is told of, and the last good one stays', async () => {
  const data = tempFolder()
  const file = join(data, 'holdfast.json')
  writeFileSync(file, JSON.stringify({ probes: [lineProbe('heron')] }))
  const server = new Program(serve(data))
  onTestFinished(() => server.stop('SIGKILL'))
  await server.start(/ready (\S+)\n/)
  const url = /ready (\S+)/.exec(server.output)![1]!
  const names = async () =>
    ((await (await fetch(`${url}/api/probe-settings`)).json()) as { name: string }[]).map((p) => p.name)
  expect(await names()).toEqual(['heron'])
  writeFileSync(file, JSON.stringify({ probes: [lineProbe('heron'), lineProbe('wren')] }))
  await expect.poll(names).toEqual(['heron', 'wren'])
  writeFileSync(file, '{ "probs": [] }')
  await expect.poll(() => server.output).toContain('the settings from before stay in force')
  expect(await names()).toEqual(['heron', 'wren'])
  expect(readFileSync(file, 'utf8')).toContain('probs')
})

const lineProbe = (name: string) => ({ name, kind: 'serial-lines', path: '/dev/nowhere', line: 'T={tempC}' })
