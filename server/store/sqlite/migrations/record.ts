/**
 * Looking up and stock. `batch_text` holds the words of each batch for full-text search, `batch_facet` what it can
 * be told apart by, `facet_count` how often each value occurs, so that no look-up has to count. Triggers keep all
 * three in step with batches, stages and entries: whatever writes those, nothing can forget it. An entry that a
 * later one replaces counts no more.
 */
export const RECORD = `
create index entry_replaces on entry (replaces) where replaces is not null;
create index entry_result on entry (id) where kind = 'result';
create index entry_lot on entry (json_extract(body, '$.lotId')) where kind = 'weighing';

create table stock_lot (
  id integer primary key autoincrement,
  material text not null,
  lot text not null,
  harvest_year integer,
  price_per_kg real
) strict;
create index stock_lot_material on stock_lot (material, lot);
create table stock_event (
  id integer primary key autoincrement,
  lot_id integer not null references stock_lot (id),
  kind text not null,
  at_ms integer not null,
  noted_ms integer not null,
  grams real not null,
  who text
) strict;
create index stock_event_lot on stock_event (lot_id, at_ms);

create view standing_entry as
  select e.* from entry e
  where e.kind <> 'withdrawn' and not exists (select 1 from entry r where r.replaces = e.id and r.id > e.id);

create view batch_words as
  select b.id as batch_id, b.title as title,
    json_extract(v.body, '$.title') || ' ' || coalesce(json_extract(v.body, '$.fibre'), '') || ' ' || coalesce(
      (select group_concat(s.value ->> '$.title' || ' ' || coalesce(
        (select group_concat(a.value ->> '$.name', ' ') from json_each(s.value, '$.additives') a), ''), ' ')
       from json_each(v.body, '$.stages') s), '') as plan,
    coalesce((select group_concat(t.atom, ' ') from standing_entry e, json_tree(e.body) t
      where e.batch_id = b.id and t.type = 'text'), '') as record
  from batch b join plan_version v on v.plan_id = b.plan_id and v.version = b.plan_version;

create view plan_facet as
  select b.id as batch_id, 'fibre' as kind, lower(trim(v.body ->> '$.fibre')) as value
  from batch b join plan_version v on v.plan_id = b.plan_id and v.version = b.plan_version
  where v.body ->> '$.fibre' is not null
  union
  select b.id, 'additive', lower(trim(a.value ->> '$.name'))
  from batch b join plan_version v on v.plan_id = b.plan_id and v.version = b.plan_version,
    json_each(v.body, '$.stages') s, json_each(s.value, '$.additives') a;

create view entry_facet as
  select batch_id, 'lot' as kind, body ->> '$.lot' as value from standing_entry
  where kind = 'weighing' and body ->> '$.lot' is not null
  union select batch_id, 'burner', body ->> '$.burner' from standing_entry
  where kind = 'equipment' and body ->> '$.burner' is not null
  union select batch_id, 'owner', body ->> '$.owner' from standing_entry
  where kind = 'goods' and body ->> '$.owner' is not null;

create virtual table batch_text using fts5 (title, plan, record, tokenize = "unicode61 remove_diacritics 2", prefix = '2 3');
create table batch_facet (
  kind text not null,
  value text not null,
  batch_id integer not null,
  primary key (kind, value, batch_id)
) strict, without rowid;
create index batch_facet_batch on batch_facet (batch_id, kind);
create table facet_count (
  kind text not null,
  value text not null,
  n integer not null,
  primary key (kind, value)
) strict, without rowid;
create index facet_count_n on facet_count (kind, n desc);

create trigger facet_more after insert on batch_facet begin
  insert into facet_count values (new.kind, new.value, 1) on conflict (kind, value) do update set n = n + 1;
end;
create trigger facet_less after delete on batch_facet begin
  update facet_count set n = n - 1 where kind = old.kind and value = old.value;
end;
create trigger batch_made after insert on batch begin
  insert into batch_text (rowid, title, plan, record)
    select batch_id, title, plan, record from batch_words where batch_id = new.id;
  insert or ignore into batch_facet select kind, value, batch_id from plan_facet where batch_id = new.id;
end;
create trigger batch_renamed after update of title on batch begin
  update batch_text set title = new.title where rowid = new.id;
end;
create trigger stage_begun after insert on stage_run begin
  insert or ignore into batch_facet values ('pot', new.pot_id, new.batch_id);
  insert or ignore into batch_facet select 'probe', new.probe, new.batch_id where new.probe is not null;
end;
create trigger entry_added after insert on entry begin
  update batch_text set record = (select record from batch_words where batch_id = new.batch_id)
    where rowid = new.batch_id;
  delete from batch_facet where batch_id = new.batch_id and kind in ('lot', 'burner', 'owner');
  insert or ignore into batch_facet select kind, value, batch_id from entry_facet where batch_id = new.batch_id;
end;

insert into batch_text (rowid, title, plan, record) select batch_id, title, plan, record from batch_words;
insert or ignore into batch_facet select kind, value, batch_id from plan_facet;
insert or ignore into batch_facet select kind, value, batch_id from entry_facet;
insert or ignore into batch_facet select 'pot', pot_id, batch_id from stage_run;
insert or ignore into batch_facet select 'probe', probe, batch_id from stage_run where probe is not null;
`
