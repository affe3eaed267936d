-- An instrument that was taken back with its import stays on record and is used no more. Whoever takes it back holds its row
-- until the commit; what names it meanwhile waits for that here, and looks again. A foreign key would only see that it stands.
create function refuse_withdrawn() returns trigger language plpgsql set search_path = pg_catalog, public as $$
declare
  gone timestamptz;
begin
  -- Without a condition on withdrawn_at: what does not match is not waited for.
  select i.withdrawn_at into gone from public.instrument i where i.lab_id = new.lab_id and i.id = new.instrument_id for key share;
  if gone is not null then
    raise exception 'An instrument that was taken back is used by no %', tg_table_name using errcode = 'CB007';
  end if;
  return new;
end
$$;

do $$
declare
  guarded text;
begin
  foreach guarded in array array['reading', 'equipment_use', 'load', 'instrument_check', 'part_fitting', 'instrument_line',
    'calibration', 'instrument_factor', 'condition_value', 'instrument_key', 'put_in_list'] loop
    execute format(
      'create trigger %I before insert on %I for each row when (new.instrument_id is not null) execute function refuse_withdrawn()',
      guarded || '_of_standing_instrument', guarded);
  end loop;
end
$$;
