-- A gradation as it was found: entered, not computed here. Its sieves as typed and as numbers, or a file.
CREATE TABLE "gradation" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "design_revision_id" UUID NOT NULL,
    "made_by" TEXT NOT NULL,
    "method_name" TEXT NOT NULL,
    "method_edition" TEXT,
    "source" TEXT NOT NULL,
    "laboratory_name" TEXT,
    "observed_by" TEXT,
    "observed_on" DATE NOT NULL,
    "remark" TEXT,
    "attachment_id" UUID,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "gradation_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "gradation_sieve" (
    "lab_id" UUID NOT NULL,
    "gradation_id" UUID NOT NULL,
    "n" SMALLINT NOT NULL,
    "size_text" TEXT NOT NULL,
    "size" DECIMAL NOT NULL,
    "passing_text" TEXT NOT NULL,
    "passing" DECIMAL NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "gradation_sieve_pkey" PRIMARY KEY ("lab_id","gradation_id","n")
);

CREATE INDEX "gradation_lab_id_design_revision_id_idx" ON "gradation"("lab_id", "design_revision_id");

CREATE UNIQUE INDEX "gradation_lab_id_supersedes_id_key" ON "gradation"("lab_id", "supersedes_id");

ALTER TABLE "gradation" ADD CONSTRAINT "gradation_lab_id_design_revision_id_fkey" FOREIGN KEY ("lab_id", "design_revision_id") REFERENCES "design_revision"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "gradation" ADD CONSTRAINT "gradation_lab_id_attachment_id_fkey" FOREIGN KEY ("lab_id", "attachment_id") REFERENCES "attachment"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "gradation" ADD CONSTRAINT "gradation_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "gradation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "gradation" ADD CONSTRAINT "gradation_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "gradation_sieve" ADD CONSTRAINT "gradation_sieve_lab_id_gradation_id_fkey" FOREIGN KEY ("lab_id", "gradation_id") REFERENCES "gradation"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table gradation add constraint gradation_made_by_word check (made_by in ('entered', 'outside', 'customer'));
alter table gradation add constraint gradation_reason_of_correction check ((supersedes_id is null) = (reason is null));
alter table gradation_sieve add constraint gradation_sieve_size_positive check (size > 0 and size < 'Infinity');
alter table gradation_sieve add constraint gradation_sieve_passing_share check (passing between 0 and 100);
create trigger gradation_supersedes_its_own before insert on gradation for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('design_revision_id');
select guard_append_only('gradation'), guard_append_only('gradation_sieve');
select guard_staff_only('gradation'), guard_staff_only('gradation_sieve');
