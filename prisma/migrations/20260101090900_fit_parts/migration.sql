-- Which lot of hose, tyre, felt or sand was on a machine from when: each fitting ends the one before it.
CREATE TABLE "part_fitting" (
    "lab_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "instrument_id" UUID NOT NULL,
    "part_lot_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "hardness_text" TEXT,
    "hardness" DECIMAL,
    "event_at" TIMESTAMPTZ(3) NOT NULL,
    "event_from" TEXT NOT NULL,
    "sent_at" TIMESTAMPTZ(3),
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "offset_ms" BIGINT,
    "note" TEXT,
    "supersedes_id" UUID,
    "reason" TEXT,
    "by_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "part_fitting_pkey" PRIMARY KEY ("lab_id","id")
);

CREATE INDEX "part_fitting_lab_id_instrument_id_kind_event_at_idx" ON "part_fitting"("lab_id", "instrument_id", "kind", "event_at");
CREATE INDEX "part_fitting_lab_id_part_lot_id_idx" ON "part_fitting"("lab_id", "part_lot_id");
CREATE UNIQUE INDEX "part_fitting_lab_id_supersedes_id_key" ON "part_fitting"("lab_id", "supersedes_id");

ALTER TABLE "part_fitting" ADD CONSTRAINT "part_fitting_lab_id_instrument_id_fkey" FOREIGN KEY ("lab_id", "instrument_id") REFERENCES "instrument"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "part_fitting" ADD CONSTRAINT "part_fitting_lab_id_part_lot_id_fkey" FOREIGN KEY ("lab_id", "part_lot_id") REFERENCES "part_lot"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "part_fitting" ADD CONSTRAINT "part_fitting_lab_id_supersedes_id_fkey" FOREIGN KEY ("lab_id", "supersedes_id") REFERENCES "part_fitting"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "part_fitting" ADD CONSTRAINT "part_fitting_lab_id_by_id_fkey" FOREIGN KEY ("lab_id", "by_id") REFERENCES "membership"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table part_lot add constraint part_lot_kind_word check (kind in ('hose', 'tyre', 'felt', 'sand'));
alter table part_fitting add constraint part_fitting_kind_word check (kind in ('hose', 'tyre', 'felt', 'sand'));
alter table part_fitting add constraint part_fitting_event_from_word check (event_from in ('now', 'ago', 'at', 'paper', 'instrument', 'plan'));
alter table part_fitting add constraint part_fitting_hardness_typed check ((hardness is null) = (hardness_text is null) and (hardness is null or hardness > 0 and hardness < 'Infinity'));
alter table part_fitting add constraint part_fitting_reason_of_correction check ((supersedes_id is null) = (reason is null));
create trigger part_fitting_supersedes_its_own before insert on part_fitting for each row when (new.supersedes_id is not null)
  execute function guard_chain_subject('instrument_id', 'kind');
select guard_append_only('part_fitting');
select guard_staff_only('part_fitting');
