/** What was learned of pots on their burners, and the guided evenings that are running. */
export const HEAT = `
create table taught_trace (
  pot_id text not null,
  from_ms integer not null,
  to_ms integer not null,
  batch_id integer references batch (id),
  litres real not null,
  lesson text,
  primary key (pot_id, from_ms)
) strict, without rowid;
create table burner_change (
  id integer primary key,
  pot_id text not null,
  at_ms integer not null,
  who text
) strict;
create index burner_change_pot on burner_change (pot_id, at_ms);
create table evening (
  pot_id text primary key,
  body text not null
) strict, without rowid;
`
