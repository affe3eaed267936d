-- A put-in list as it was settled: when each specimen goes into the bath and when its run starts. A later one supersedes it.
CREATE TABLE "put_in_list" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_id" UUID NOT NULL,
    "method_key" TEXT NOT NULL,
    "instrument_id" UUID,
    "run_minutes" INTEGER NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "put_in_list_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "put_in_list_row" (
    "lab_id" UUID NOT NULL,
    "list_id" UUID NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "test_id" UUID NOT NULL,
    "put_in_at" TIMESTAMPTZ(3),
    "start_at" TIMESTAMPTZ(3) NOT NULL,
    "must_start_at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "put_in_list_row_pkey" PRIMARY KEY ("lab_id","list_id","ordinal")
);

CREATE UNIQUE INDEX "put_in_list_lab_id_supersedes_id_key" ON "put_in_list"("lab_id", "supersedes_id");
CREATE INDEX "put_in_list_lab_id_design_id_method_key_idx" ON "put_in_list"("lab_id", "design_id", "method_key");
CREATE UNIQUE INDEX "put_in_list_row_lab_id_list_id_test_id_key" ON "put_in_list_row"("lab_id", "list_id", "test_id");
CREATE INDEX "put_in_list_row_lab_id_test_id_idx" ON "put_in_list_row"("lab_id", "test_id");

ALTER TABLE "put_in_list" ADD CONSTRAINT "put_in_list_lab_id_design_id_fkey" FOREIGN KEY ("lab_id", "design_id") REFERENCES "design"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "put_in_list" ADD CONSTRAINT "put_in_list_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "put_in_list" ADD CONSTRAINT "put_in_list_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "put_in_list"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "put_in_list" ADD CONSTRAINT "put_in_list_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "put_in_list_row" ADD CONSTRAINT "put_in_list_row_lab_id_list_id_fkey" FOREIGN KEY ("lab_id", "list_id") REFERENCES "put_in_list"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "put_in_list_row" ADD CONSTRAINT "put_in_list_row_lab_id_test_id_fkey" FOREIGN KEY ("lab_id", "test_id") REFERENCES "test_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

create unique index put_in_list_first on put_in_list (lab_id, design_id, method_key) where supersedes_id is null;
alter table put_in_list add constraint put_in_list_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table put_in_list add constraint put_in_list_run_positive check (run_minutes between 1 and 240);
create trigger put_in_list_supersedes_its_own before insert on put_in_list for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('design_id', 'method_key');
select guard_append_only('put_in_list');
select guard_staff_only('put_in_list');
select guard_append_only('put_in_list_row');
select guard_staff_only('put_in_list_row');
