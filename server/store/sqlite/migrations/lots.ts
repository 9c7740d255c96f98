/**
 * Several lots in one bath: a lot is a batch of its own (goods, weight, record) whose stages, events and alarms are
 * those of the batch that it lies in. State and pot follow that batch, and so does what it is found by.
 */
export const LOTS = `
alter table batch add column bath_of integer references batch (id);
create index batch_bath on batch (bath_of) where bath_of is not null;

drop trigger entry_added;
drop view entry_facet;
create view own_entry_facet as
  select batch_id, 'lot' as kind, body ->> '$.lot' as value from standing_entry
  where kind = 'weighing' and body ->> '$.lot' is not null
  union select batch_id, 'burner', body ->> '$.burner' from standing_entry
  where kind = 'equipment' and body ->> '$.burner' is not null
  union select batch_id, 'owner', body ->> '$.owner' from standing_entry
  where kind = 'goods' and body ->> '$.owner' is not null;

create trigger entry_added after insert on entry begin
  update batch_text set record = (select record from batch_words where batch_id = new.batch_id)
    where rowid = new.batch_id;
  delete from batch_facet where kind in ('lot', 'burner', 'owner')
    and batch_id in (select new.batch_id union all select id from batch where bath_of = new.batch_id);
  insert or ignore into batch_facet
    select f.kind, f.value, f.batch_id from own_entry_facet f where f.batch_id = new.batch_id;
  insert or ignore into batch_facet
    select f.kind, f.value, b.id from batch b join own_entry_facet f on f.batch_id = b.bath_of
    where b.id = new.batch_id and f.kind <> 'owner';
  insert or ignore into batch_facet
    select f.kind, f.value, b.id from batch b join own_entry_facet f on f.batch_id = b.id
    where b.bath_of = new.batch_id;
  insert or ignore into batch_facet
    select f.kind, f.value, b.id from batch b join own_entry_facet f on f.batch_id = b.bath_of
    where b.bath_of = new.batch_id and f.kind <> 'owner';
end;
create trigger lot_joined after insert on batch when new.bath_of is not null begin
  update batch set (state, pot_id, ended_ms) = (select state, pot_id, ended_ms from batch where id = new.bath_of)
    where id = new.id;
  insert or ignore into batch_facet
    select kind, value, new.id from batch_facet
    where batch_id = new.bath_of and kind in ('pot', 'probe', 'lot', 'burner');
end;
create trigger bath_moved after update of state, pot_id, ended_ms on batch when new.bath_of is null begin
  update batch set state = new.state, pot_id = new.pot_id, ended_ms = new.ended_ms where bath_of = new.id;
end;
create trigger stage_begun_for_lots after insert on stage_run begin
  insert or ignore into batch_facet select 'pot', new.pot_id, id from batch where bath_of = new.batch_id;
  insert or ignore into batch_facet
    select 'probe', new.probe, id from batch where bath_of = new.batch_id and new.probe is not null;
end;
`
