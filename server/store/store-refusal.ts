/** The data can't be opened as it stands: one sentence that says what was found and what to do. */
export class StoreRefusal extends Error {
  override readonly name = 'StoreRefusal'
}
