-- How a balance sends: the settings of its line, and one line with the number shown then, from which its form is learnt.
CREATE TABLE "instrument_line" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "baud_rate" INTEGER NOT NULL,
    "data_bits" INTEGER NOT NULL,
    "parity" TEXT NOT NULL,
    "stop_bits" INTEGER NOT NULL,
    "example" TEXT NOT NULL,
    "shown" TEXT NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "instrument_line_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE INDEX "instrument_line_lab_id_instrument_id_idx" ON "instrument_line"("lab_id", "instrument_id");
CREATE UNIQUE INDEX "instrument_line_lab_id_supersedes_id_key" ON "instrument_line"("lab_id", "supersedes_id");
-- One chain an instrument: a second first one would leave two standing.
create unique index instrument_line_first on instrument_line (lab_id, instrument_id) where supersedes_id is null;

ALTER TABLE "instrument_line" ADD CONSTRAINT "instrument_line_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_line" ADD CONSTRAINT "instrument_line_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "instrument_line"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "instrument_line" ADD CONSTRAINT "instrument_line_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table instrument_line add constraint instrument_line_baud_rate_known check (baud_rate in (1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200));
alter table instrument_line add constraint instrument_line_data_bits_known check (data_bits in (7, 8));
alter table instrument_line add constraint instrument_line_parity_word check (parity in ('none', 'even', 'odd'));
alter table instrument_line add constraint instrument_line_stop_bits_known check (stop_bits in (1, 2));
alter table instrument_line add constraint instrument_line_reason_of_change check ((supersedes_id is null) = (reason is null));
create trigger instrument_line_supersedes_its_own before insert on instrument_line for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('instrument_id');
select guard_append_only('instrument_line');
select guard_staff_only('instrument_line');
