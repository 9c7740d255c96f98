import { describe } from 'vitest'
import { FakeDoor } from '../../kit/fake-door.ts'
import { serialDoorContract } from '../../kit/serial-door-contract.ts'

const PATH = '/dev/ttyUSB0'

describe('the door of the tests keeps the contract of serial ports', () => {
  serialDoorContract(() => {
    const door = new FakeDoor()
    const bench = {
      door,
      path: PATH,
      send: (text: string) => door.feed(PATH, text),
      heard: () => door.written(PATH),
      pull: () => Promise.resolve(door.unplug(PATH)),
      plug: () => Promise.resolve(door.plugIn({ path: PATH })),
      end: () => Promise.resolve(),
    }
    door.plugIn({ path: PATH })
    return Promise.resolve(bench)
  })
})
