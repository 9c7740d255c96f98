/** Photos of batches, by the hash of their bytes. */
export const PHOTOS = `
create table photo (
  id text primary key,
  type text not null,
  added_ms integer not null,
  bytes blob not null
) strict;
`
