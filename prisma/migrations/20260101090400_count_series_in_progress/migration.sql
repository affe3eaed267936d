-- A client's progress counts specimens as the laboratory does: of every revision, batches left out, spares only in another's place.
create or replace function client_progress()
returns table (project_id uuid, code text, name text, status_word text, design_state text, tests_done bigint, tests_total bigint, steps_done bigint, steps_total bigint,
  report_id uuid, report_number text, report_amendment int, report_issued_at timestamptz)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  with own as (
    select p.* from public.project p
    where p.lab_id = nullif(current_setting('app.lab', true), '')::uuid and p.client_id = nullif(current_setting('app.client', true), '')::uuid
  ), revisions as (
    select d.lab_id, d.project_id, d.id as design_id, r.id, r.number, r.state
    from own join public.design d on d.lab_id = own.lab_id and d.project_id = own.id
    join public.design_revision r on r.lab_id = d.lab_id and r.design_id = d.id
  ), latest as (
    select distinct on (design_id) * from revisions order by design_id, number desc
  ), counted as (
    select v.project_id, count(*) filter (where n.state = 'done') as tests_done, count(*) as tests_total,
      sum(n.steps_done) as steps_done, sum(n.steps_total) as steps_total
    from revisions v
    join public.test_event t on t.lab_id = v.lab_id and t.design_revision_id = v.id and t.method_key <> 'batch'
    join public.test_now n on n.lab_id = t.lab_id and n.test_id = t.id
    where n.state in ('waiting', 'in-work', 'done')
      and (t.purpose <> 'spare' or exists (
        select from public.test_replacement taken where taken.lab_id = t.lab_id and taken.spare_test_id = t.id))
    group by v.project_id
  )
  select own.id, own.code, own.name, own.status_word,
    -- The design that is least far along speaks for the project.
    (select l.state from latest l where l.project_id = own.id
      order by array_position(array['draft', 'sent-back', 'in-work', 'in-review', 'approved'], l.state) limit 1),
    coalesce(c.tests_done, 0), coalesce(c.tests_total, 0), coalesce(c.steps_done, 0), coalesce(c.steps_total, 0),
    r.id, r.number, r.amendment, r.issued_at
  from own
  left join counted c on c.project_id = own.id
  left join lateral (
    select r.* from public.report r where r.lab_id = own.lab_id and r.project_id = own.id and r.client_id = own.client_id
    order by r.issued_at desc, r.amendment desc limit 1
  ) r on true
  order by own.code
$$;
