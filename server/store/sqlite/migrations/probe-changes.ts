/** What was set of a probe on the page, and when; `setting` is null where it was taken away. */
export const PROBE_CHANGES = `
create table probe_change (
  id integer primary key,
  probe text not null,
  at_ms integer not null,
  setting text
) strict;
create index probe_change_probe on probe_change (probe, id);
`
