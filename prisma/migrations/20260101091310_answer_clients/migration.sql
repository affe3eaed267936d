-- What a client is told and asks: the day on which a project's report is expected, each change with its reason; questions put
-- at a project or at one of its reports, and their answers.
CREATE TABLE "expected_day" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "project_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "day" DATE NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "expected_day_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "question" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "project_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "report_id" UUID,
    "text" TEXT NOT NULL,
    "printed_name" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "question_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "question_answer" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "question_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "text" TEXT NOT NULL,
    "printed_name" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "question_answer_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE UNIQUE INDEX "expected_day_lab_id_supersedes_id_key" ON "expected_day"("lab_id", "supersedes_id");
CREATE INDEX "expected_day_lab_id_project_id_idx" ON "expected_day"("lab_id", "project_id");
CREATE INDEX "question_lab_id_project_id_idx" ON "question"("lab_id", "project_id");
CREATE INDEX "question_answer_lab_id_question_id_idx" ON "question_answer"("lab_id", "question_id");

ALTER TABLE "expected_day" ADD CONSTRAINT "expected_day_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "expected_day" ADD CONSTRAINT "expected_day_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "expected_day" ADD CONSTRAINT "expected_day_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "expected_day"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "expected_day" ADD CONSTRAINT "expected_day_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "question" ADD CONSTRAINT "question_lab_id_project_id_fkey" FOREIGN KEY ("lab_id", "project_id") REFERENCES "project"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "question" ADD CONSTRAINT "question_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "question" ADD CONSTRAINT "question_lab_id_report_id_fkey" FOREIGN KEY ("lab_id", "report_id") REFERENCES "report"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "question" ADD CONSTRAINT "question_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "question_answer" ADD CONSTRAINT "question_answer_lab_id_question_id_fkey" FOREIGN KEY ("lab_id", "question_id") REFERENCES "question"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "question_answer" ADD CONSTRAINT "question_answer_lab_id_client_id_fkey" FOREIGN KEY ("lab_id", "client_id") REFERENCES "client"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "question_answer" ADD CONSTRAINT "question_answer_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table expected_day add constraint expected_day_change_has_reason check ((supersedes_id is null) = (reason is null));
create trigger expected_day_supersedes_its_own before insert on expected_day for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('project_id');

-- Each of the three belongs to the client whose project it is about: that is what a client's session is shown them by.
create function guard_told_client() returns trigger language plpgsql set search_path = pg_catalog, public as $$
declare
  mine jsonb := to_jsonb(new);
begin
  if tg_table_name = 'question_answer' then
    if not exists (select from public.question q where q.lab_id = new.lab_id and q.id = (mine ->> 'question_id')::uuid and q.client_id = new.client_id) then
      raise exception 'An answer belongs to the client who asked' using errcode = 'CB003';
    end if;
    return new;
  end if;
  if not exists (select from public.project p where p.lab_id = new.lab_id and p.id = (mine ->> 'project_id')::uuid and p.client_id = new.client_id) then
    raise exception 'A row of % belongs to the client of its project', tg_table_name using errcode = 'CB003';
  end if;
  if mine ->> 'report_id' is not null and not exists (
    select from public.report r where r.lab_id = new.lab_id and r.id = (mine ->> 'report_id')::uuid and r.project_id = (mine ->> 'project_id')::uuid) then
    raise exception 'A question about a report belongs to its project' using errcode = 'CB003';
  end if;
  return new;
end
$$;
create trigger expected_day_of_its_client before insert on expected_day for each row execute function guard_told_client();
create trigger question_of_its_client before insert on question for each row execute function guard_told_client();
create trigger question_answer_of_its_client before insert on question_answer for each row execute function guard_told_client();

select guard_append_only('expected_day');
select guard_append_only('question');
select guard_append_only('question_answer');
select guard_staff_only('expected_day');
select guard_staff_only('question');
select guard_staff_only('question_answer');

-- A client user reads what is told to that client, and asks in their own name about that client's work.
create policy own_client on expected_day for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and client_id = nullif(current_setting('app.client', true), '')::uuid);
create policy own_client on question for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and client_id = nullif(current_setting('app.client', true), '')::uuid);
create policy asked_by_client on question for insert to curebook_app
  with check (lab_id = nullif(current_setting('app.lab', true), '')::uuid and client_id = nullif(current_setting('app.client', true), '')::uuid
    and by_id = nullif(current_setting('app.member', true), '')::uuid);
create policy own_client on question_answer for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and client_id = nullif(current_setting('app.client', true), '')::uuid);

revoke execute on function guard_previewed_report() from public;
revoke execute on function guard_told_client() from public;
