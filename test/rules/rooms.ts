/** Who may import whom: the room table of DEVELOPERS.md as data. `packages`: npm and node modules. */
export interface Room {
  readonly rooms: 'any' | readonly string[]
  readonly packages: 'any' | readonly string[]
}

const core = (...names: string[]) => names.map((name) => `server/core/${name}`)
const WHOLE_CORE = core('measure', 'plan', 'bath', 'watch', 'batch', 'words', 'wire')

export const ROOMS: Readonly<Record<string, Room>> = {
  'server/core/measure': { rooms: [], packages: [] },
  'server/core/plan': { rooms: core('measure'), packages: [] },
  'server/core/bath': { rooms: core('measure'), packages: [] },
  'server/core/watch': { rooms: core('measure', 'plan', 'bath'), packages: [] },
  'server/core/batch': { rooms: core('measure', 'plan'), packages: ['culori'] },
  'server/core/words': { rooms: core('measure', 'plan', 'bath', 'watch', 'batch'), packages: [] },
  'server/core/wire': {
    rooms: core('measure', 'plan', 'bath', 'watch', 'batch', 'words'),
    packages: ['zod'],
  },
  'bridge/probe': { rooms: core('measure', 'bath', 'wire'), packages: 'any' },
  'bridge/link': { rooms: core('measure', 'wire'), packages: 'any' },
  'server/store': { rooms: WHOLE_CORE, packages: 'any' },
  // Pages and programs ask who would hear an alarm and fetch sheets: `serve` opens `tell` and `report`, never the other way.
  'server/serve': { rooms: [...WHOLE_CORE, 'server/store', 'server/report', 'server/tell'], packages: 'any' },
  'server/tell': { rooms: [...WHOLE_CORE, 'server/store'], packages: 'any' },
  'server/report': { rooms: [...WHOLE_CORE, 'server/store'], packages: 'any' },
  'server/demo': { rooms: [...WHOLE_CORE, 'server/store'], packages: [] },
  'server/commands': { rooms: 'any', packages: 'any' },
  'web/state': { rooms: WHOLE_CORE, packages: ['@preact/signals', 'socket.io-client'] },
  'web/device': { rooms: ['web/state'], packages: [] },
  'web/view': {
    rooms: [...WHOLE_CORE, 'web/state', 'web/device'],
    packages: [
      'preact',
      '@preact/signals',
      'chart.js',
      'chartjs-plugin-annotation',
      'chartjs-plugin-zoom',
      'qrcode',
    ],
  },
}
