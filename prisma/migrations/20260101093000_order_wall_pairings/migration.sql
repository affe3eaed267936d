-- Two pairings of one screen can be written in one millisecond: the later code, whose id is time-ordered, is the later pairing.
create or replace function wall_screen_by_key(key_hash bytea)
returns table (lab_id uuid, screen_id uuid, name text, holds boolean)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select s.lab_id, s.id, s.name,
    not exists (select from public.wall_end e where e.lab_id = s.lab_id and e.screen_id = s.id)
    and not exists (
      select from public.wall_pairing later join public.wall_code lc on lc.lab_id = later.lab_id and lc.id = later.code_id
      where lc.lab_id = s.lab_id and lc.screen_id = s.id
        and (later.written_at, later.code_id) > (p.written_at, p.code_id))
  from public.wall_pairing p
  join public.wall_code c on c.lab_id = p.lab_id and c.id = p.code_id
  join public.wall_screen s on s.lab_id = c.lab_id and s.id = c.screen_id
  where p.key_hash = wall_screen_by_key.key_hash
$$;
