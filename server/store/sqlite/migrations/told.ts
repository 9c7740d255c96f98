/** The forecasts that people were given, each once. */
export const TOLD = `
create table told_forecast (
  pot_id text not null,
  made_ms integer not null,
  kind text not null,
  stage_id text not null,
  told real not null,
  low90 real not null,
  high90 real not null,
  from_traces integer not null,
  primary key (pot_id, made_ms, kind)
) strict, without rowid;
`
