-- A mistyped value of an oven's or bath's log is put right by another, which somebody enters with the reason.
ALTER TABLE "condition_value" ADD COLUMN     "reason" TEXT,
ADD COLUMN     "supersedes_id" UUID;

CREATE UNIQUE INDEX "condition_value_lab_id_supersedes_id_key" ON "condition_value"("lab_id", "supersedes_id");

ALTER TABLE "condition_value" ADD CONSTRAINT "condition_value_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "condition_value"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table condition_value add constraint condition_value_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table condition_value add constraint condition_value_corrected_by_hand check (supersedes_id is null or by_id is not null);
create trigger condition_value_supersedes_its_own before insert on condition_value for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('instrument_id');
-- guard_append_only granted the columns of its day.
grant insert (reason, supersedes_id) on condition_value to curebook_app;
