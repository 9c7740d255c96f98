/** Until somebody asks the program to end. A second time ends it at once. */
export function untilSignal(): Promise<void> {
  return new Promise((resolve) => {
    let asked = false
    const ask = () => {
      if (asked) process.exit(130)
      asked = true
      resolve()
    }
    process.on('SIGINT', ask)
    process.on('SIGTERM', ask)
  })
}
