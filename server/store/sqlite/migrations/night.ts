/** When the dyer's alarm clock rings, and how cool a bath must be by then: one row, as said last. */
export const NIGHT = `
create table wake_wish (
  id integer primary key check (id = 1),
  wake_at text,
  lift_c real not null
) strict;
`
