/** Every page that the made-up server can fill, and one that isn't there. */
export const PAGES = [
  '#/',
  '#/pots/heron',
  '#/pots/heron/burner',
  '#/pots/heron/what-if',
  '#/pots/heron/evening',
  '#/batches',
  '#/batches/1',
  '#/plans',
  '#/plans/1',
  '#/plans/new',
].concat(['#/start/1', '#/begin/1', '#/probes', '#/night', '#/morning', '#/settings', '#/nowhere'])
