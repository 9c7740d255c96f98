/** What the server, a bridge or the core says went wrong, in English: as it comes. */
export const enSaid = (sentence: string): string => sentence
