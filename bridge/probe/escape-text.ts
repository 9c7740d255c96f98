const SHORT: Readonly<Record<string, number>> = { n: 10, r: 13, t: 9, '\\': 92 }

/** Bytes of a text from the settings in which \r \n \t \\ and \xHH stand for what can't be typed. */
export function escapedBytes(text: string): Uint8Array {
  const unescaped = text.replace(/\\(x[0-9a-fA-F]{2}|[nrt\\])/g, (_, code: string) =>
    String.fromCharCode(SHORT[code] ?? Number.parseInt(code.slice(1), 16)),
  )
  return Uint8Array.from(unescaped, (c) => c.charCodeAt(0) & 0xff)
}
