-- What the schema language cannot say: checks, first-entry and chain rules, append-only guards, row-level security, grants.
-- The helpers guard_* serve later migrations too: a new table with lab_id calls one of them, or a test fails.

-- 1. Logins. The starter makes them with passwords beforehand; here only so that the grants below can name them.
do $$
declare
  login text;
begin
  foreach login in array array['curebook_app', 'curebook_identity', 'curebook_sealer'] loop
    if not exists (select from pg_roles where rolname = login) then
      execute format('create role %I nologin nosuperuser nocreatedb nocreaterole nobypassrls', login);
    end if;
  end loop;
end
$$;
grant usage on schema public to curebook_app, curebook_identity, curebook_sealer;

-- 2. Closed words, and digests of 32 bytes.
alter table laboratory add constraint laboratory_units_word check (units in ('si', 'us'));
alter table laboratory add constraint laboratory_decimal_sign_word check (decimal_sign in ('point', 'comma'));
alter table laboratory add constraint laboratory_paper_word check (paper in ('a4', 'letter'));
alter table place add constraint place_kind_word check (kind in ('room', 'oven', 'bath', 'store', 'outside'));
alter table request_key add constraint request_key_request_dig_length check (octet_length(request_dig) = 32);
alter table invitation add constraint invitation_token_hash_length check (octet_length(token_hash) = 32);
alter table instrument add constraint instrument_state_word check (state in ('in-service', 'due', 'out'));
alter table instrument_factor add constraint instrument_factor_key_word check (key in ('area', 'frame'));
alter table instrument_factor add constraint instrument_factor_dig_length check (octet_length(dig) = 32);
alter table instrument_check add constraint instrument_check_kind_word check (kind in ('known-mass', 'temperature', 'load', 'dimension'));
alter table method_edition add constraint method_edition_origin_word check (origin in ('built-in', 'laboratory'));
alter table method_edition add constraint method_edition_dig_length check (octet_length(dig) = 32);
alter table specification add constraint specification_origin_word check (origin in ('built-in', 'laboratory'));
alter table specification add constraint specification_dig_length check (octet_length(dig) = 32);
alter table item add constraint item_kind_word check (kind in ('sample', 'split', 'bag', 'batch', 'specimen', 'field-sample'));
alter table item add constraint item_form_word check (form in ('disc', 'strip', 'biscuit', 'pill'));
alter table item add constraint item_material_kind_word check (material_kind in ('aggregate', 'emulsion', 'filler', 'water', 'additive'));
alter table item_now add constraint item_now_status_word check (status in ('with', 'offered', 'sent', 'returned', 'disposed', 'gap'));
alter table custody_event add constraint custody_event_kind_word check (kind in ('received', 'taken', 'offered', 'accepted', 'refused', 'placed', 'split', 'sent', 'returned', 'disposed', 'gap'));
alter table custody_event add constraint custody_event_event_from_word check (event_from in ('now', 'ago', 'at', 'paper', 'instrument', 'plan'));
alter table project add constraint project_kind_word check (kind in ('full', 'verification', 'comparison'));
alter table design add constraint design_kind_word check (kind in ('full', 'verification'));
alter table design_revision add constraint design_revision_basis_word check (basis in ('dry-aggregate', 'dry-aggregate-and-filler', 'dry-mix'));
alter table design_revision add constraint design_revision_state_word check (state in ('draft', 'in-work', 'in-review', 'sent-back', 'approved'));
alter table mix_component add constraint mix_component_kind_word check (kind in ('aggregate', 'emulsion', 'water', 'filler', 'additive'));
alter table test_event add constraint test_event_purpose_word check (purpose in ('series', 'spare', 'verify', 'material', 'control'));
alter table test_now add constraint test_now_state_word check (state in ('waiting', 'in-work', 'done', 'void', 'replaced', 'spare'));
alter table load add constraint load_kind_word check (kind in ('oven', 'bath'));
alter table step_event add constraint step_event_kind_word check (kind in ('start', 'end', 'skip', 'void', 'observe'));
alter table step_event add constraint step_event_event_from_word check (event_from in ('now', 'ago', 'at', 'paper', 'instrument', 'plan'));
alter table reading add constraint reading_kind_word check (kind in ('number', 'count', 'choice', 'text', 'moment', 'duration', 'photo'));
alter table reading add constraint reading_event_from_word check (event_from in ('now', 'ago', 'at', 'paper', 'instrument', 'plan'));
alter table reading add constraint reading_actor_kind_word check (actor_kind in ('person', 'device', 'system'));
alter table reading add constraint reading_request_dig_length check (octet_length(request_dig) = 32);
alter table window_outcome add constraint window_outcome_outcome_word check (outcome in ('met', 'early', 'late', 'missed'));
alter table window_outcome add constraint window_outcome_judged_by_word check (judged_by in ('event', 'device-clock'));
alter table due add constraint due_act_word check (act in ('start', 'end', 'reading'));
alter table result add constraint result_level_word check (level in ('test', 'mix', 'revision'));
alter table result add constraint result_made_by_word check (made_by in ('computed', 'entered', 'outside', 'customer'));
alter table result add constraint result_edition_dig_length check (octet_length(edition_dig) = 32);
alter table calculation add constraint calculation_dig_length check (octet_length(dig) = 32);
alter table deviation add constraint deviation_kind_word check (kind in ('window', 'condition', 'custody', 'calibration', 'competence', 'impossible', 'other'));
alter table deviation_event add constraint deviation_event_kind_word check (kind in ('hold', 'accept', 'void', 'repeat', 'release', 'exclude', 'notify', 'close'));
alter table ledger_entry add constraint ledger_entry_actor_kind_word check (actor_kind in ('person', 'device', 'system'));
alter table ledger_entry add constraint ledger_entry_dig_length check (octet_length(dig) = 32);
alter table ledger_seal add constraint ledger_seal_previous_length check (octet_length(previous) = 32);
alter table ledger_seal add constraint ledger_seal_hash_length check (octet_length(hash) = 32);
alter table ledger_head_print add constraint ledger_head_print_hash_length check (octet_length(hash) = 32);
alter table signed_content add constraint signed_content_kind_word check (kind in ('revision', 'check', 'deviation'));
alter table signed_content add constraint signed_content_dig_length check (octet_length(dig) = 32);
alter table signature add constraint signature_dig_length check (octet_length(dig) = 32);
alter table signature add constraint signature_meaning_word check (meaning in ('checked', 'reviewed', 'approved', 'released', 'sent-back', 'hold', 'resume'));
alter table signature add constraint signature_means_word check (means in ('password', 'passkey', 'totp'));
alter table report add constraint report_paper_word check (paper in ('a4', 'letter'));
alter table report add constraint report_pdf_sha256_length check (octet_length(pdf_sha256) = 32);
alter table report add constraint report_public_token_hash_length check (octet_length(public_token_hash) = 32);
alter table report_event add constraint report_event_kind_word check (kind in ('issued', 'superseded', 'withdrawn', 'record-changed', 'opened'));
alter table attachment add constraint attachment_sha256_length check (octet_length(sha256) = 32);

-- A correction names its reason, a first entry has none.
alter table authorisation add constraint authorisation_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table calibration add constraint calibration_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table instrument_factor add constraint instrument_factor_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table instrument_check add constraint instrument_check_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table method_edition add constraint method_edition_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table specification add constraint specification_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table custody_event add constraint custody_event_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table recommendation add constraint recommendation_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table acknowledgement add constraint acknowledgement_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table step_event add constraint step_event_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table reading add constraint reading_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table window_outcome add constraint window_outcome_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table assignment add constraint assignment_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table result add constraint result_reason_of_correction check ((supersedes_id is null) = (reason is null));

-- 3. Checks across columns.
alter table laboratory add constraint laboratory_short_name_form check (short_name ~ '^[a-z0-9]([a-z0-9-]{0,38}[a-z0-9])?$');
alter table membership add constraint membership_roles_known check (cardinality(roles) > 0 and roles <@ array['manager', 'technician', 'engineer', 'client', 'auditor']);
-- The role client stands alone and names its client; nobody else has one.
alter table membership add constraint membership_client_alone check (('client' = any (roles)) = (client_id is not null) and (client_id is null or roles = array['client']));
alter table invitation add constraint invitation_roles_known check (cardinality(roles) > 0 and roles <@ array['manager', 'technician', 'engineer', 'client', 'auditor']);
alter table invitation add constraint invitation_client_alone check (('client' = any (roles)) = (client_id is not null) and (client_id is null or roles = array['client']));
alter table item add constraint item_form_of_specimen check (form is null or kind = 'specimen');
alter table item add constraint item_material_of_sample check (material_kind is null or kind in ('sample', 'split', 'bag', 'field-sample'));
alter table item_parent add constraint item_parent_not_itself check (child_id <> parent_id);
alter table item_parent add constraint item_parent_mass_pair check ((mass is null) = (mass_text is null));
alter table method_edition add constraint method_edition_by_whom check (by_id is not null or origin = 'built-in');
alter table specification add constraint specification_by_whom check (by_id is not null or origin = 'built-in');
alter table deviation add constraint deviation_by_whom check (by_id is not null or opened_by_rule);
alter table deviation add constraint deviation_about_something check (num_nonnulls(test_id, item_id, instrument_id, design_revision_id, reading_id) >= 1);
alter table equipment_use add constraint equipment_use_one_subject check (num_nonnulls(step_event_id, reading_id) = 1);
alter table ledger_entry add constraint ledger_entry_person_named check (actor_kind <> 'person' or actor_id is not null);
alter table window_outcome add constraint window_outcome_one_act check (num_nonnulls(event_id, event_reading_id) <= 1 and num_nonnulls(after_event_id, after_reading_id) <= 1);
alter table test_now add constraint test_now_steps_within check (steps_done between 0 and steps_total);
alter table attachment add constraint attachment_bytes_positive check (bytes > 0);

alter table reading add constraint reading_one_subject check (num_nonnulls(test_id, item_id, load_id, instrument_check_id) = 1);
alter table reading add constraint reading_value_of_number check ((kind in ('number', 'count')) = (value is not null));
alter table reading add constraint reading_choice_of_choice check ((kind = 'choice') = (choice is not null));
alter table reading add constraint reading_repeat_from_one check (repeat >= 1);

alter table result add constraint result_one_subject check ((level = 'test') = (test_id is not null) and (level = 'mix') = (mix_id is not null) and (level = 'revision') = (design_revision_id is not null));
alter table result add constraint result_one_outcome check (num_nonnulls(value, choice, refusal_code) = 1 and (value is null) = (value_text is null) and (refusal_code is null) = (refusal_text is null));
alter table result add constraint result_computed_by_what check (made_by <> 'computed' or num_nulls(method_key, computation, build, edition_id, edition_dig) = 0);
alter table result add constraint result_entered_from_where check (made_by = 'computed' or num_nulls(source, observed_on) = 0);
alter table result_input add constraint result_input_one_origin check (num_nonnulls(reading_id, input_result_id, factor_id, parameter) = 1);

-- PostgreSQL's NUMERIC knows NaN and Infinity; a measured or computed value never is one.
alter table reading add constraint reading_value_finite check (value not in ('NaN', 'Infinity', '-Infinity'));
alter table slot_now add constraint slot_now_value_finite check (value not in ('NaN', 'Infinity', '-Infinity'));
alter table result add constraint result_value_finite check (value not in ('NaN', 'Infinity', '-Infinity'));
alter table instrument_factor add constraint instrument_factor_value_positive check (value > 0 and value < 'Infinity');

-- A digest beside its own text must be of exactly that text.
alter table ledger_entry add constraint ledger_entry_dig_of_content check (dig = sha256(convert_to(content, 'UTF8')));
alter table signed_content add constraint signed_content_dig_of_body check (dig = sha256(convert_to(body, 'UTF8')));
alter table calculation add constraint calculation_dig_of_body check (dig = sha256(convert_to(body, 'UTF8')));

-- 4. First entries: what is not a correction stands once. Chains never fork: unique (lab_id, supersedes_id) is in the schema.
create unique index reading_first_of_test on reading (lab_id, test_id, step_key, key, repeat) where supersedes_id is null and test_id is not null;
create unique index reading_first_of_item on reading (lab_id, item_id, step_key, key, repeat) where supersedes_id is null and item_id is not null;
create unique index reading_first_of_load on reading (lab_id, load_id, step_key, key, repeat) where supersedes_id is null and load_id is not null;
create unique index reading_first_of_check on reading (lab_id, instrument_check_id, step_key, key, repeat) where supersedes_id is null and instrument_check_id is not null;
create unique index step_event_first on step_event (lab_id, test_id, step_key, kind) where supersedes_id is null and kind <> 'observe';
create unique index step_event_void_once on step_event (lab_id, test_id) where supersedes_id is null and kind = 'void';
create unique index result_first_computed on result (lab_id, test_id, key, unit) nulls not distinct where supersedes_id is null and made_by = 'computed' and test_id is not null;
create unique index result_first_of_revision on result (lab_id, design_revision_id, key) where supersedes_id is null and design_revision_id is not null;
create unique index window_outcome_first on window_outcome (lab_id, test_id, window_key) where supersedes_id is null;
create unique index assignment_first on assignment (lab_id, test_id, step_key) nulls not distinct where supersedes_id is null;
create unique index recommendation_first on recommendation (lab_id, design_revision_id) where supersedes_id is null;
create unique index acknowledgement_first on acknowledgement (lab_id, design_revision_id, point_key) where supersedes_id is null;

-- A correction stays with the subject of what it supersedes; the arguments name the columns that must be equal.
create function guard_chain_subject() returns trigger language plpgsql set search_path = pg_catalog, public as $$
declare
  earlier jsonb;
  mine jsonb := to_jsonb(new);
  subject text;
begin
  execute format('select to_jsonb(e) from public.%I e where e.lab_id = $1 and e.id = $2', tg_table_name)
    into earlier using new.lab_id, new.supersedes_id;
  foreach subject in array tg_argv loop
    if earlier -> subject is distinct from mine -> subject then
      raise exception 'A row of % supersedes one with another %', tg_table_name, subject using errcode = 'CB002';
    end if;
  end loop;
  return new;
end
$$;

create trigger authorisation_supersedes_its_own before insert on authorisation for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('membership_id', 'activity');
create trigger calibration_supersedes_its_own before insert on calibration for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('instrument_id');
create trigger instrument_factor_supersedes_its_own before insert on instrument_factor for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('instrument_id', 'key', 'unit');
create trigger instrument_check_supersedes_its_own before insert on instrument_check for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('instrument_id', 'kind');
create trigger method_edition_supersedes_its_own before insert on method_edition for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('method_key');
create trigger specification_supersedes_its_own before insert on specification for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('key');
create trigger custody_event_supersedes_its_own before insert on custody_event for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('item_id');
create trigger recommendation_supersedes_its_own before insert on recommendation for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('design_revision_id');
create trigger acknowledgement_supersedes_its_own before insert on acknowledgement for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('design_revision_id', 'point_key');
create trigger step_event_supersedes_its_own before insert on step_event for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('test_id', 'step_key', 'kind');
create trigger reading_supersedes_its_own before insert on reading for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('test_id', 'item_id', 'load_id', 'instrument_check_id', 'step_key', 'key', 'repeat');
create trigger window_outcome_supersedes_its_own before insert on window_outcome for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('test_id', 'window_key');
create trigger assignment_supersedes_its_own before insert on assignment for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('test_id', 'step_key');
create trigger result_supersedes_its_own before insert on result for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('level', 'test_id', 'mix_id', 'design_revision_id', 'key');

-- 5. Guards that need another row.
create function guard_signature() returns trigger language plpgsql set search_path = pg_catalog, public as $$
begin
  if not exists (select from public.signed_content c where c.lab_id = new.lab_id and c.id = new.signed_content_id and c.dig = new.dig) then
    raise exception 'A signature carries another digest than its content' using errcode = 'CB003';
  end if;
  return new;
end
$$;
create trigger signature_of_its_content before insert on signature for each row execute function guard_signature();

create function guard_report() returns trigger language plpgsql set search_path = pg_catalog, public as $$
begin
  if not exists (select from public.signature s where s.lab_id = new.lab_id and s.id = new.signature_id and s.signed_content_id = new.signed_content_id and s.meaning = 'approved') then
    raise exception 'A report needs an approval of exactly its content' using errcode = 'CB003';
  end if;
  if not exists (select from public.attachment a where a.lab_id = new.lab_id and a.id = new.pdf_id and a.sha256 = new.pdf_sha256) then
    raise exception 'A report carries another digest than its PDF' using errcode = 'CB003';
  end if;
  if not exists (select from public.project p where p.lab_id = new.lab_id and p.id = new.project_id and p.client_id = new.client_id) then
    raise exception 'A report belongs to the client of its project' using errcode = 'CB003';
  end if;
  return new;
end
$$;
create trigger report_of_its_signature before insert on report for each row execute function guard_report();

create function guard_attachment_body() returns trigger language plpgsql set search_path = pg_catalog, public as $$
begin
  if not exists (select from public.attachment a where a.lab_id = new.lab_id and a.id = new.attachment_id and a.bytes = octet_length(new.body) and a.sha256 = sha256(new.body)) then
    raise exception 'The bytes of an attachment are not those it names' using errcode = 'CB003';
  end if;
  return new;
end
$$;
create trigger attachment_body_of_its_name before insert on attachment_body for each row execute function guard_attachment_body();
alter table attachment_body alter column body set storage external;

-- Nothing approved can change: neither the revision nor what its series is made of.
create function guard_approved_revision() returns trigger language plpgsql set search_path = pg_catalog, public as $$
begin
  if old.state = 'approved' then
    raise exception 'An approved revision does not change; a new revision starts from it' using errcode = 'CB004';
  end if;
  return new;
end
$$;
create trigger design_revision_stays_approved before update on design_revision for each row execute function guard_approved_revision();

create function guard_series_of_approved() returns trigger language plpgsql set search_path = pg_catalog, public as $$
declare
  subject jsonb := to_jsonb(case when tg_op = 'DELETE' then old else new end);
  revision uuid := subject ->> 'design_revision_id';
begin
  if revision is null then
    select m.design_revision_id into revision from public.mix m where m.lab_id = (subject ->> 'lab_id')::uuid and m.id = (subject ->> 'mix_id')::uuid;
  end if;
  if exists (select from public.design_revision r where r.lab_id = (subject ->> 'lab_id')::uuid and r.id = revision and r.state = 'approved') then
    raise exception 'The series of an approved revision does not change; a new revision starts from it' using errcode = 'CB004';
  end if;
  return case when tg_op = 'DELETE' then old else new end;
end
$$;
create trigger mix_of_open_revision before insert or update or delete on mix for each row execute function guard_series_of_approved();
create trigger mix_component_of_open_revision before insert or update or delete on mix_component for each row execute function guard_series_of_approved();
create trigger design_method_of_open_revision before insert or update or delete on design_method for each row execute function guard_series_of_approved();
create trigger recommendation_of_open_revision before insert on recommendation for each row execute function guard_series_of_approved();

-- Every entry waits for the sealer (seal_ledger); no grant lets anybody take it off the list unsealed.
create function enlist_entry() returns trigger language plpgsql security definer set search_path = pg_catalog, public as $$
begin
  insert into public.ledger_unsealed (lab_id, entry_id) values (new.lab_id, new.id);
  return null;
end
$$;
create trigger ledger_entry_waits_for_seal after insert on ledger_entry for each row execute function enlist_entry();

create function guard_seal() returns trigger language plpgsql set search_path = pg_catalog, public as $$
declare
  head record;
  digest bytea;
begin
  select s.seq, s.hash into head from public.ledger_seal s where s.lab_id = new.lab_id order by s.seq desc limit 1;
  if new.seq <> coalesce(head.seq, 0) + 1 or new.previous <> coalesce(head.hash, decode(repeat('00', 32), 'hex')) then
    raise exception 'Seal % does not follow the head of its chain', new.seq using errcode = 'CB005';
  end if;
  select e.dig into digest from public.ledger_entry e where e.lab_id = new.lab_id and e.id = new.entry_id;
  if digest is null or new.hash <> sha256(new.previous || digest) then
    raise exception 'Seal % carries another hash than its entry gives', new.seq using errcode = 'CB005';
  end if;
  return new;
end
$$;
create trigger ledger_seal_follows before insert on ledger_seal for each row execute function guard_seal();

-- 6. Append-only, grants and row-level security, by mark.
create function refuse_change() returns trigger language plpgsql set search_path = pg_catalog as $$
begin
  raise exception 'Rows of % are written once; % is refused', tg_table_name, lower(tg_op) using errcode = 'CB001';
end
$$;

create function guard_append_only(guarded regclass) returns void language plpgsql set search_path = pg_catalog, public as $$
declare
  columns text;
begin
  select string_agg(quote_ident(attname), ', ' order by attnum) into columns
    from pg_attribute where attrelid = guarded and attnum > 0 and not attisdropped and attname <> 'written_at';
  execute format('create trigger written_once before update or delete or truncate on %s for each statement execute function public.refuse_change()', guarded);
  -- written_at comes from the database alone.
  execute format('grant select, insert (%s) on %s to curebook_app', columns, guarded);
end
$$;

create function guard_staff_only(guarded regclass) returns void language plpgsql set search_path = pg_catalog, public as $$
declare
  mine constant text := $q$lab_id = nullif(current_setting('app.lab', true), '')::uuid and nullif(current_setting('app.client', true), '') is null$q$;
begin
  execute format('alter table %s enable row level security', guarded);
  execute format('create policy staff on %s for all to curebook_app using (%s) with check (%s)', guarded, mine, mine);
end
$$;

-- [A] append-only
do $$
declare
  guarded text;
begin
  foreach guarded in array array[
    'authorisation', 'calibration', 'instrument_factor', 'instrument_check', 'equipment_use', 'method_edition',
    'specification', 'item', 'item_parent', 'custody_event', 'recommendation', 'acknowledgement', 'send_back',
    'test_event', 'load', 'step_event', 'reading', 'window_outcome', 'assignment', 'result', 'result_input',
    'calculation', 'deviation', 'deviation_event', 'ledger_entry', 'ledger_head_print', 'signed_content', 'signature',
    'report', 'report_event', 'attachment', 'attachment_body'
  ] loop
    perform guard_append_only(guarded::regclass);
  end loop;
end
$$;
-- The chain belongs to the sealer: the application reads it.
create trigger written_once before update or delete or truncate on ledger_seal for each statement execute function refuse_change();
grant select on ledger_seal, ledger_unsealed to curebook_app;
-- Answers kept for retries expire: written once, but deletable.
grant select, insert (lab_id, actor_id, key, route, request_dig, status, answer, at), delete on request_key to curebook_app;

-- [M] mutable, [P] projections
do $$
declare
  guarded text;
begin
  foreach guarded in array array[
    'laboratory', 'client', 'place', 'counter', 'membership', 'invitation', 'instrument', 'part_lot', 'project',
    'design', 'design_revision', 'design_method', 'mix', 'mix_component', 'plan'
  ] loop
    execute format('grant select, insert, update on %I to curebook_app', guarded);
  end loop;
end
$$;
do $$
declare
  guarded text;
begin
  foreach guarded in array array[
    'item_now', 'test_now', 'slot_now', 'due'
  ] loop
    execute format('grant select, insert, update, delete on %I to curebook_app', guarded);
  end loop;
end
$$;
-- A series being drafted loses a content, a plan is dropped; both stand in the ledger.
grant delete on design_method, mix, mix_component, plan to curebook_app;

-- Row-level security, not forced: definer functions, backup and restore run as owner, the server never does.
do $$
declare
  guarded text;
begin
  foreach guarded in array array[
    'client', 'place', 'counter', 'request_key', 'membership', 'invitation', 'authorisation', 'instrument',
    'calibration', 'instrument_factor', 'instrument_check', 'part_lot', 'equipment_use', 'method_edition',
    'specification', 'item', 'item_parent', 'item_now', 'custody_event', 'project', 'design', 'design_revision',
    'design_method', 'mix', 'mix_component', 'recommendation', 'acknowledgement', 'send_back', 'test_event',
    'test_now', 'load', 'step_event', 'reading', 'slot_now', 'window_outcome', 'due', 'assignment', 'plan', 'result',
    'result_input', 'calculation', 'deviation', 'deviation_event', 'ledger_entry', 'ledger_seal', 'ledger_unsealed',
    'ledger_head_print', 'signed_content', 'signature', 'report', 'report_event', 'attachment', 'attachment_body'
  ] loop
    perform guard_staff_only(guarded::regclass);
  end loop;
end
$$;

-- Client users: their own client, projects and issued reports; nothing else.
create policy own_client on client for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and id = nullif(current_setting('app.client', true), '')::uuid);
create policy own_client on project for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and client_id = nullif(current_setting('app.client', true), '')::uuid);
create policy own_client on report for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and client_id = nullif(current_setting('app.client', true), '')::uuid);
-- What became of a report, without the record's changes, which the laboratory tells them itself.
create policy own_client on report_event for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and kind in ('issued', 'superseded', 'withdrawn')
    and nullif(current_setting('app.client', true), '') is not null
    and exists (select from report r where r.lab_id = report_event.lab_id and r.id = report_event.report_id));
create policy opened_by_client on report_event for insert to curebook_app
  with check (lab_id = nullif(current_setting('app.lab', true), '')::uuid and kind = 'opened' and by_id = nullif(current_setting('app.member', true), '')::uuid
    and exists (select from report r where r.lab_id = report_event.lab_id and r.id = report_event.report_id));
-- A client's acts stand in the ledger, which the client cannot read.
create policy act_of_client on ledger_entry for insert to curebook_app
  with check (lab_id = nullif(current_setting('app.lab', true), '')::uuid and actor_id = nullif(current_setting('app.member', true), '')::uuid
    and (client_id is null or client_id = nullif(current_setting('app.client', true), '')::uuid));
create policy own_key on request_key for all to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and actor_id = nullif(current_setting('app.member', true), '')::uuid)
  with check (lab_id = nullif(current_setting('app.lab', true), '')::uuid and actor_id = nullif(current_setting('app.member', true), '')::uuid);

-- A laboratory's own row; a client user may read it.
alter table laboratory enable row level security;
create policy own_laboratory on laboratory for select to curebook_app using (id = nullif(current_setting('app.lab', true), '')::uuid);
create policy staff_insert on laboratory for insert to curebook_app
  with check (id = nullif(current_setting('app.lab', true), '')::uuid and nullif(current_setting('app.client', true), '') is null);
create policy staff_update on laboratory for update to curebook_app
  using (id = nullif(current_setting('app.lab', true), '')::uuid and nullif(current_setting('app.client', true), '') is null);

-- The laboratory's members; one's own row while no laboratory is chosen yet; a client user sees nobody else.
alter table membership enable row level security;
create policy own_account on membership for select to curebook_app
  using (account_id = nullif(current_setting('app.account', true), '')::uuid
    and lab_id = coalesce(nullif(current_setting('app.lab', true), '')::uuid, lab_id));

-- The sealer reads the ledger of all laboratories and appends seals.
create policy sealer on ledger_entry for select to curebook_sealer using (true);
create policy sealer on ledger_seal for all to curebook_sealer using (true) with check (true);
create policy sealer on ledger_unsealed for all to curebook_sealer using (true);
grant select on ledger_entry to curebook_sealer;
grant select, insert (lab_id, seq, entry_id, previous, hash, sealed_at) on ledger_seal to curebook_sealer;
grant select, delete on ledger_unsealed to curebook_sealer;

-- Accounts: the identity login only.
grant select, insert, update, delete on identity_user, identity_session, identity_account, identity_verification, identity_two_factor, identity_rate to curebook_identity;

-- Hot projections are updated in place.
alter table test_now set (fillfactor = 80);
alter table slot_now set (fillfactor = 80);
alter table due set (fillfactor = 80);

revoke execute on all functions in schema public from public;
