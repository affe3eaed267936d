-- A project stands on one version of a specification; each choice after the first names its reason. A design that takes another
-- says why.
CREATE TABLE "project_specification" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "project_id" UUID NOT NULL,
    "specification_id" UUID NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "project_specification_pkey" PRIMARY KEY ("lab_id","id")
);
ALTER TABLE "design_revision" ADD COLUMN     "specification_reason" TEXT;

CREATE UNIQUE INDEX "project_specification_lab_id_supersedes_id_key" ON "project_specification"("lab_id", "supersedes_id");
CREATE INDEX "project_specification_lab_id_project_id_idx" ON "project_specification"("lab_id", "project_id");

ALTER TABLE "project_specification" ADD CONSTRAINT "project_specification_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "project_specification" ADD CONSTRAINT "project_specification_lab_id_specification_id_fkey" FOREIGN KEY ("lab_id", "specification_id") REFERENCES "specification"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "project_specification" ADD CONSTRAINT "project_specification_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "project_specification"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "project_specification" ADD CONSTRAINT "project_specification_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table project_specification add constraint project_specification_change_has_reason check ((supersedes_id is null) = (reason is null));
create unique index project_specification_first on project_specification (lab_id, project_id) where supersedes_id is null;
create trigger project_specification_supersedes_its_own before insert on project_specification for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('project_id');
-- A contract's copy stays that contract's, version by version.
create trigger specification_keeps_its_project before insert on specification for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('project_id');

select guard_append_only('project_specification');
select guard_staff_only('project_specification');

-- A contract's copy is of one project: no other stands on it, and no design of another is held against it.
create function guard_contract_specification() returns trigger language plpgsql set search_path = pg_catalog, public as $$
declare
  mine jsonb := to_jsonb(new);
  own uuid := mine ->> 'project_id';
begin
  if tg_table_name = 'design_revision' then
    select d.project_id into own from public.design d where d.lab_id = new.lab_id and d.id = (mine ->> 'design_id')::uuid;
  end if;
  if exists (
    select from public.specification s
    where s.lab_id = new.lab_id and s.id = new.specification_id and s.project_id is not null and s.project_id is distinct from own) then
    raise exception 'This specification is the copy of another project' using errcode = 'CB003';
  end if;
  return new;
end
$$;
revoke execute on function guard_contract_specification() from public;
create trigger project_specification_of_its_contract before insert on project_specification for each row
  execute function guard_contract_specification();
create trigger design_revision_of_its_contract before insert or update of specification_id on design_revision for each row
  execute function guard_contract_specification();

-- A client is told by which specification their project is judged: its name and version, and nothing more of it.
create function client_specifications() returns table (project_id uuid, name text, version int)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
  with recursive line as (
    select p.lab_id, p.project_id, s.name, s.supersedes_id
    from public.project o
    join public.project_specification p on p.lab_id = o.lab_id and p.project_id = o.id
    join public.specification s on s.lab_id = p.lab_id and s.id = p.specification_id
    where o.lab_id = nullif(current_setting('app.lab', true), '')::uuid and o.client_id = nullif(current_setting('app.client', true), '')::uuid
      and not exists (select from public.project_specification later where later.lab_id = p.lab_id and later.supersedes_id = p.id)
    union all
    select line.lab_id, line.project_id, line.name, earlier.supersedes_id
    from line join public.specification earlier on earlier.lab_id = line.lab_id and earlier.id = line.supersedes_id
  )
  select line.project_id, line.name, count(*)::int from line group by line.project_id, line.name
$$;
revoke execute on function client_specifications() from public;
grant execute on function client_specifications() to curebook_app;
