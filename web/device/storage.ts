/** Remembers small texts on this device; where the browser forbids it, only until the page is closed. */
export interface Memory {
  read(key: string): string | null
  write(key: string, value: string): void
}

export function deviceMemory(): Memory {
  const here = new Map<string, string>()
  return {
    read(key) {
      try {
        return localStorage.getItem(`holdfast.${key}`)
      } catch {
        return here.get(key) ?? null
      }
    },
    write(key, value) {
      here.set(key, value)
      try {
        localStorage.setItem(`holdfast.${key}`, value)
      } catch {
        // Kept in `here`.
      }
    },
  }
}
