-- What a person is told because others decided it: that tests became theirs, or somebody else's. Seen is a row of its own.
CREATE TABLE "notice" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "to_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "notice_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "notice_assignment" (
    "lab_id" UUID NOT NULL,
    "notice_id" UUID NOT NULL,
    "assignment_id" UUID NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "notice_assignment_pkey" PRIMARY KEY ("lab_id","notice_id","assignment_id")
);

CREATE TABLE "notice_seen" (
    "lab_id" UUID NOT NULL,
    "notice_id" UUID NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "notice_seen_pkey" PRIMARY KEY ("lab_id","notice_id")
);

CREATE INDEX "notice_lab_id_to_id_at_idx" ON "notice"("lab_id", "to_id", "at");
CREATE INDEX "notice_assignment_lab_id_assignment_id_idx" ON "notice_assignment"("lab_id", "assignment_id");

ALTER TABLE "notice" ADD CONSTRAINT "notice_lab_id_to_id_fkey" FOREIGN KEY ("lab_id", "to_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "notice" ADD CONSTRAINT "notice_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "notice_assignment" ADD CONSTRAINT "notice_assignment_lab_id_notice_id_fkey" FOREIGN KEY ("lab_id", "notice_id") REFERENCES "notice"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "notice_assignment" ADD CONSTRAINT "notice_assignment_lab_id_assignment_id_fkey" FOREIGN KEY ("lab_id", "assignment_id") REFERENCES "assignment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "notice_seen" ADD CONSTRAINT "notice_seen_lab_id_notice_id_fkey" FOREIGN KEY ("lab_id", "notice_id") REFERENCES "notice"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "notice_seen" ADD CONSTRAINT "notice_seen_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table notice add constraint notice_kind_word check (kind in ('given', 'taken'));
select guard_append_only('notice');
select guard_staff_only('notice');
select guard_append_only('notice_assignment');
select guard_staff_only('notice_assignment');
select guard_append_only('notice_seen');
select guard_staff_only('notice_seen');

-- A notice is read by the person it is for and by nobody else; that it was seen is theirs to say.
create policy own_notice on notice as restrictive for select to curebook_app
  using (to_id = nullif(current_setting('app.member', true), '')::uuid);
create policy own_notice on notice_seen as restrictive for all to curebook_app
  using (by_id = nullif(current_setting('app.member', true), '')::uuid)
  with check (by_id = nullif(current_setting('app.member', true), '')::uuid
    and exists (select from notice n where n.lab_id = notice_seen.lab_id and n.id = notice_seen.notice_id));
