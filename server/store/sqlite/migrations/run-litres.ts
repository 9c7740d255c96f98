/** The water in the pot while a stage ran: a pot that is filled otherwise later was not filled so then. */
export const RUN_LITRES = `
alter table stage_run add column litres real;
update stage_run set litres = (
  select litres from taught_trace t
  where t.pot_id = stage_run.pot_id and t.from_ms <= stage_run.started_ms and t.to_ms >= stage_run.started_ms
);
`
