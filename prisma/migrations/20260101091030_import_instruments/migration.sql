-- Instruments brought in from a file, all of it or nothing; and taken back as a whole, while none of them was used.
CREATE TABLE "instrument_import" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "file_name" TEXT NOT NULL,
    "content" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "instrument_import_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE TABLE "instrument_import_row" (
    "lab_id" UUID NOT NULL,
    "import_id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "line" INTEGER NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "instrument_import_row_pkey" PRIMARY KEY ("lab_id","instrument_id")
);

CREATE TABLE "instrument_withdrawal" (
    "lab_id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "act_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "instrument_withdrawal_pkey" PRIMARY KEY ("lab_id","instrument_id")
);

ALTER TABLE "instrument" ADD COLUMN "withdrawn_at" TIMESTAMPTZ(3);

CREATE INDEX "instrument_import_row_lab_id_import_id_idx" ON "instrument_import_row"("lab_id", "import_id");
CREATE INDEX "instrument_withdrawal_lab_id_act_id_idx" ON "instrument_withdrawal"("lab_id", "act_id");
-- A code that was never used is free again, so that the file put right can be brought in.
DROP INDEX "instrument_lab_id_code_key";
CREATE INDEX "instrument_lab_id_code_idx" ON "instrument"("lab_id", "code");
create unique index instrument_code_standing on instrument (lab_id, code) where withdrawn_at is null;

ALTER TABLE "instrument_import" ADD CONSTRAINT "instrument_import_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_import_row" ADD CONSTRAINT "instrument_import_row_lab_id_import_id_fkey" FOREIGN KEY ("lab_id", "import_id") REFERENCES "instrument_import"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_import_row" ADD CONSTRAINT "instrument_import_row_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_withdrawal" ADD CONSTRAINT "instrument_withdrawal_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_withdrawal" ADD CONSTRAINT "instrument_withdrawal_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table instrument add constraint instrument_withdrawn_out check (withdrawn_at is null or state = 'out');
select guard_append_only('instrument_import');
select guard_staff_only('instrument_import');
select guard_append_only('instrument_import_row');
select guard_staff_only('instrument_import_row');
select guard_append_only('instrument_withdrawal');
select guard_staff_only('instrument_withdrawal');
