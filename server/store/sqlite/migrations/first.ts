/**
 * Readings lie clustered by probe and time. `temp_c` is null where it equals `raw_c`, so that a probe without
 * a correction costs no second number; `device_ms` is what the device's own clock said, where it was not used; `verdict` is the code of `reading-codes.ts`. `seen` has one bit for
 * each (probe, boot, seq), 1024 to a row. `minute` is the lowest and the highest believed reading of each
 * minute, kept in the same commit, so that a year's trace needs no look at every second of it.
 */
export const FIRST = `
create table probe (
  id integer primary key,
  name text not null unique,
  first_seen_ms integer not null,
  accepted integer not null,
  setting text
) strict;
create table correction (
  id integer primary key,
  probe_id integer not null references probe (id),
  from_ms integer not null,
  made_ms integer not null,
  who text,
  body text not null
) strict;
create table reading (
  probe_id integer not null,
  at_ms integer not null,
  nth integer not null,
  raw_c real,
  temp_c real,
  verdict integer not null,
  found text,
  device_ms integer,
  primary key (probe_id, at_ms, nth)
) strict, without rowid;
create table seen (
  probe_id integer not null,
  boot text not null,
  chunk integer not null,
  bits blob not null,
  primary key (probe_id, boot, chunk)
) strict, without rowid;
create table minute (
  probe_id integer not null,
  minute integer not null,
  low_c real not null,
  low_ms integer not null,
  high_c real not null,
  high_ms integer not null,
  primary key (probe_id, minute)
) strict, without rowid;
create table pot (
  id text primary key,
  title text not null,
  vessel text,
  gone_ms integer
) strict;
create table assignment (
  id integer primary key,
  probe text not null,
  pot_id text not null references pot (id),
  from_ms integer not null,
  to_ms integer
) strict;
create index assignment_open on assignment (probe) where to_ms is null;
create index assignment_end on assignment (to_ms);
create table plan (id integer primary key autoincrement) strict;
create table plan_version (
  plan_id integer not null references plan (id),
  version integer not null,
  saved_ms integer not null,
  body text not null,
  primary key (plan_id, version)
) strict;
create table batch (
  id integer primary key autoincrement,
  title text not null,
  plan_id integer not null,
  plan_version integer not null,
  dry_weight_g real,
  made_ms integer not null,
  ended_ms integer,
  pot_id text,
  state text not null,
  foreign key (plan_id, plan_version) references plan_version (plan_id, version)
) strict;
create index batch_state on batch (state, id);
create table stage_run (
  id integer primary key autoincrement,
  batch_id integer not null references batch (id),
  stage_id text not null,
  pot_id text not null,
  probe text,
  started_ms integer not null,
  ended_ms integer,
  outcome text
) strict;
create index stage_run_batch on stage_run (batch_id);
create index stage_run_probe on stage_run (probe, started_ms);
create index stage_run_open on stage_run (pot_id) where ended_ms is null;
create table event (
  id integer primary key autoincrement,
  at_ms integer not null,
  noted_ms integer not null,
  pot_id text,
  batch_id integer references batch (id),
  stage_id text,
  word text not null,
  who text,
  struck_ms integer,
  struck_by text
) strict;
create index event_batch on event (batch_id, at_ms);
create index event_pot on event (pot_id, at_ms);
create table entry (
  id integer primary key autoincrement,
  batch_id integer not null references batch (id),
  at_ms integer not null,
  noted_ms integer not null,
  who text,
  kind text not null,
  body text not null,
  replaces integer references entry (id)
) strict;
create index entry_batch on entry (batch_id, at_ms);
create table alarm (
  id integer primary key,
  pot_id text not null,
  batch_id integer,
  raised_ms integer not null,
  cleared_ms integer,
  open integer not null,
  entry text not null,
  text text not null
) strict;
create index alarm_open on alarm (id) where open = 1;
create index alarm_batch on alarm (batch_id);
create index alarm_pot on alarm (pot_id, id);
create index alarm_raised on alarm (raised_ms);
create index alarm_cleared on alarm (cleared_ms);
create table message (
  id integer primary key,
  at_ms integer not null,
  kind text not null,
  body text not null
) strict;
create index message_at on message (at_ms);
`
