/** An address as it may be shown: without the user and password that may stand in it. */
export const shownUrl = (url: string): string => url.replace(/\/\/[^@/]*@/, '//')
