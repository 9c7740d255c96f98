/** What stands on a phone besides the sentence of the alarm or notice. */
export interface PushCatalogue {
  readonly comeNow: string
  readonly soon: string
  readonly notice: string
  readonly somebodyIsThere: string
  readonly isThere: (who: string) => string
  readonly putAside: string
  readonly over: string
  readonly test: string
  readonly testTap: string
  /** Who heard the test: `title` is what the owner calls the phone. */
  readonly heardBy: (title: string) => string
}
