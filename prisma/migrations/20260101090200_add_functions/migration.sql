-- Functions that the server calls. Those that run as their definer pin their search path and name every table in full;
-- nobody may execute one that is not granted below.

-- A session while it lives: 12 hours at most, 1 hour idle. Accounts keep real time.
create function live_session(session_token text) returns table (session_id uuid, account_id uuid, last_seen_at timestamptz, expires_at timestamptz)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select s.id, s.user_id, s.last_seen_at, e.expires_at
  from public.identity_session s
  cross join lateral (select least(s.expires_at, s.created_at + interval '12 hours', s.last_seen_at + interval '1 hour') as expires_at) e
  where s.token = session_token and e.expires_at > clock_timestamp()
$$;

-- Opens a transaction for a signed-in person: no row = not signed in; membership_id null = signed in, not a member there.
-- Sets app.lab, app.member, app.account, app.client and app.roles until the end of the transaction.
-- "at" is the domain's clock, by which memberships begin and end.
create function enter(session_token text, lab uuid, at timestamptz default null)
returns table (account_id uuid, session_id uuid, expires_at timestamptz, membership_id uuid, name text, initials text, roles text[], client_id uuid)
language plpgsql volatile security definer set search_path = pg_catalog, pg_temp as $$
declare
  session record;
  member record;
  moment constant timestamptz := coalesce(enter.at, clock_timestamp());
begin
  perform set_config('app.lab', '', true), set_config('app.member', '', true), set_config('app.account', '', true),
    set_config('app.client', '', true), set_config('app.roles', '', true);
  select * into session from public.live_session(enter.session_token);
  if not found then
    return;
  end if;
  if session.last_seen_at < clock_timestamp() - interval '1 minute' and current_setting('transaction_read_only') = 'off' then
    -- A request that finds the row taken leaves the touch to the one that holds it.
    update public.identity_session s set last_seen_at = clock_timestamp()
    where s.id = (select i.id from public.identity_session i where i.id = session.session_id for update skip locked);
  end if;
  select m.id, m.name, m.initials, m.roles, m.client_id into member from public.membership m
  where m.lab_id = enter.lab and m.account_id = session.account_id and m.valid_from <= moment and (m.valid_until is null or m.valid_until > moment);
  perform set_config('app.account', session.account_id::text, true);
  if member.id is not null then
    perform set_config('app.lab', enter.lab::text, true), set_config('app.member', member.id::text, true),
      set_config('app.client', coalesce(member.client_id::text, ''), true), set_config('app.roles', array_to_string(member.roles, ','), true);
  end if;
  return query select session.account_id::uuid, session.session_id::uuid, session.expires_at::timestamptz,
    member.id::uuid, member.name::text, member.initials::text, member.roles::text[], member.client_id::uuid;
end
$$;

-- The laboratories that a signed-in person may enter.
create function memberships_of(session_token text, at timestamptz default null)
returns table (lab_id uuid, short_name text, laboratory text, membership_id uuid, name text, initials text, roles text[], client_id uuid)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select l.id, l.short_name, l.name, m.id, m.name, m.initials, m.roles, m.client_id
  from public.live_session(session_token) s
  join public.membership m on m.account_id = s.account_id
  join public.laboratory l on l.id = m.lab_id
  where m.valid_from <= coalesce(at, clock_timestamp()) and (m.valid_until is null or m.valid_until > coalesce(at, clock_timestamp()))
  order by l.name
$$;

-- Whether any laboratory stands here; without one the first-run page is shown.
create function laboratory_exists() returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select exists (select from public.laboratory)
$$;

-- Every laboratory's id: work that the server does for all of them enters one after the other.
create function laboratory_ids() returns setof uuid
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select l.id from public.laboratory l order by l.short_name
$$;

-- The invitation behind a token, for the page where it is accepted; the caller judges whether it still holds.
create function invitation_by_token(token_hash bytea)
returns table (lab_id uuid, invitation_id uuid, short_name text, laboratory text, email text, name text, roles text[], client_id uuid, expires_at timestamptz, accepted_at timestamptz, revoked_at timestamptz)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select i.lab_id, i.id, l.short_name, l.name, i.email, i.name, i.roles, i.client_id, i.expires_at, i.accepted_at, i.revoked_at
  from public.invitation i join public.laboratory l on l.id = i.lab_id
  where i.token_hash = invitation_by_token.token_hash
$$;

-- A client's own projects with how far they are, counted without showing a row of the bench.
create function client_progress()
returns table (project_id uuid, code text, name text, status_word text, design_state text, tests_done bigint, tests_total bigint, steps_done bigint, steps_total bigint,
  report_id uuid, report_number text, report_amendment int, report_issued_at timestamptz)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  with own as (
    select p.* from public.project p
    where p.lab_id = nullif(current_setting('app.lab', true), '')::uuid and p.client_id = nullif(current_setting('app.client', true), '')::uuid
  ), latest as (
    select distinct on (d.lab_id, d.id) d.lab_id, d.project_id, r.id, r.state
    from own join public.design d on d.lab_id = own.lab_id and d.project_id = own.id
    join public.design_revision r on r.lab_id = d.lab_id and r.design_id = d.id
    order by d.lab_id, d.id, r.number desc
  ), counted as (
    select l.project_id, count(*) filter (where n.state = 'done') as tests_done, count(*) as tests_total,
      sum(n.steps_done) as steps_done, sum(n.steps_total) as steps_total
    from latest l
    join public.test_event t on t.lab_id = l.lab_id and t.design_revision_id = l.id
    join public.test_now n on n.lab_id = t.lab_id and n.test_id = t.id
    where n.state in ('waiting', 'in-work', 'done')
    group by l.project_id
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

-- A report's PDF for whoever may see the report: the policy of the table report, repeated.
create function client_report_pdf(report uuid) returns table (name text, media_type text, sha256 bytea, body bytea)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select a.name, a.media_type, a.sha256, b.body
  from public.report r
  join public.attachment a on a.lab_id = r.lab_id and a.id = r.pdf_id
  join public.attachment_body b on b.lab_id = a.lab_id and b.attachment_id = a.id
  where r.id = client_report_pdf.report and r.lab_id = nullif(current_setting('app.lab', true), '')::uuid
    and (nullif(current_setting('app.client', true), '') is null or r.client_id = nullif(current_setting('app.client', true), '')::uuid)
$$;

-- The signed content of a report, canonical JSON text, for whoever may see the report.
create function client_report_content(report uuid) returns table (body text, dig bytea)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select c.body, c.dig
  from public.report r join public.signed_content c on c.lab_id = r.lab_id and c.id = r.signed_content_id
  where r.id = client_report_content.report and r.lab_id = nullif(current_setting('app.lab', true), '')::uuid
    and (nullif(current_setting('app.client', true), '') is null or r.client_id = nullif(current_setting('app.client', true), '')::uuid)
$$;

-- The public check: whether a report is genuine and current. No row = no such report. No value of it leaves.
create function check_report(token_hash bytea)
returns table (number text, amendment int, laboratory text, issued_at timestamptz, digest bytea, state text, replaced_by_number text, replaced_by_amendment int)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  select r.number, r.amendment, l.name, r.issued_at, c.dig,
    case
      when exists (select from public.report_event e where e.lab_id = r.lab_id and e.report_id = r.id and e.kind = 'withdrawn') then 'withdrawn'
      when later.id is not null or exists (select from public.report_event e where e.lab_id = r.lab_id and e.report_id = r.id and e.kind = 'superseded') then 'superseded'
      else 'current'
    end,
    later.number, later.amendment
  from public.report r
  join public.laboratory l on l.id = r.lab_id
  join public.signed_content c on c.lab_id = r.lab_id and c.id = r.signed_content_id
  left join public.report later on later.lab_id = r.lab_id and later.replaces_id = r.id
  where r.public_token_hash = check_report.token_hash
$$;

-- Adds a job in the caller's transaction. The queue's tables belong to the owner.
create function enqueue(task text, payload json, run_at timestamptz default null, job_key text default null) returns void
language plpgsql volatile security definer set search_path = pg_catalog, pg_temp as $$
begin
  if to_regnamespace('graphile_worker') is null then
    raise exception 'The job queue is not installed in this database' using errcode = 'CB006';
  end if;
  execute 'select graphile_worker.add_job(identifier => $1, payload => $2, run_at => $3, job_key => $4)' using task, payload, run_at, job_key;
end
$$;

-- The next number of a name in the laboratory of the transaction, from 1. Taken last: its row stays locked until commit.
create function next_number(name text) returns bigint
language sql volatile set search_path = pg_catalog, pg_temp as $$
  insert into public.counter as c (lab_id, name, value) values (nullif(current_setting('app.lab', true), '')::uuid, next_number.name, 1)
  on conflict (lab_id, name) do update set value = c.value + 1
  returning value
$$;

-- Seals what waits, each laboratory's entries in the order they were written. The lock is its own statement: a snapshot older
-- than the lock would fork the chain.
create function seal_ledger(at timestamptz, most int default 5000) returns table (lab_id uuid, first_seq bigint, last_seq bigint, head bytea)
language plpgsql volatile set search_path = pg_catalog, pg_temp as $$
declare
  laboratory uuid;
  entry record;
  previous bytea;
begin
  perform pg_advisory_xact_lock(hashtextextended('curebook ledger seal', 0));
  -- After a restore an entry may wait though its seal stands.
  delete from public.ledger_unsealed u using public.ledger_seal s where s.lab_id = u.lab_id and s.entry_id = u.entry_id;
  for laboratory in select distinct u.lab_id from public.ledger_unsealed u loop
    select s.seq, s.hash into last_seq, head from public.ledger_seal s where s.lab_id = laboratory order by s.seq desc limit 1;
    last_seq := coalesce(last_seq, 0);
    head := coalesce(head, decode(repeat('00', 32), 'hex'));
    first_seq := last_seq + 1;
    for entry in
      select e.id, e.dig from public.ledger_unsealed u join public.ledger_entry e on e.lab_id = u.lab_id and e.id = u.entry_id
      where u.lab_id = laboratory order by e.written_at, e.id limit most
    loop
      previous := head;
      head := sha256(previous || entry.dig);
      last_seq := last_seq + 1;
      insert into public.ledger_seal (lab_id, seq, entry_id, previous, hash, sealed_at) values (laboratory, last_seq, entry.id, previous, head, seal_ledger.at);
      delete from public.ledger_unsealed u where u.lab_id = laboratory and u.entry_id = entry.id;
    end loop;
    lab_id := laboratory;
    return next;
  end loop;
end
$$;

revoke execute on all functions in schema public from public;
grant execute on function enter(text, uuid, timestamptz), memberships_of(text, timestamptz), laboratory_exists(), laboratory_ids(), invitation_by_token(bytea), client_progress(),
  client_report_pdf(uuid), client_report_content(uuid), check_report(bytea), enqueue(text, json, timestamptz, text), next_number(text) to curebook_app;
grant execute on function seal_ledger(timestamptz, int) to curebook_sealer;
